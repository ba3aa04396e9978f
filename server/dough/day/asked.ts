import type { Range } from "../amounts.ts"
import { usualRetardC } from "../fermentation/end-points.ts"
import { type Culture, rate } from "../fermentation/growth.ts"
import { checkDuration, coolingHours, type Stage } from "../schedule.ts"
import type { DayQuestion, Place } from "./day.ts"
import { asFed } from "./fed.ts"

/** What a stage is to the dough: there is none yet, it is being mixed, it ferments, it is in the oven, it is bread. */
export type Phase = "before" | "mixing" | "dough" | "oven" | "after"

/** A stage as this day asks for it, with the minutes of a levain as it is fed. */
export type AskedStage = {
  stage: Stage
  phase: Phase
  place: Place
  placeC: number
  culture: Culture
  /** What its minutes may be, but for a stage that temperature drives and that does not stand in the cold. */
  minutes: Range
  /** What its reference hours have to be; undefined where only the minutes are asked for. */
  wanted?: Range
  wantedHours?: number
  cold: boolean
}

/** The stages of a day as they are asked for in this kitchen. Throws RangeError for minutes that are no duration. */
export function askedOf(question: DayQuestion): AskedStage[] {
  const { stages, levain, cold, culture } = question
  const phases = phasesOf(question)
  return stages.map((written, index) => {
    const isLevain = written.key === levain?.stageKey
    const own = isLevain ? "sourdough" : culture
    const isCold = written.key === cold?.stageKey
    const place = placeOf(question, written)
    const placeC = temperatureOf(question, place)
    const stage = isLevain ? asFed(written, levain, placeC) : written
    checkDuration(stage)
    const minutes = isCold ? cold.min : { low: stage.lowMin, high: stage.highMin }
    const asked = { stage, phase: phases[index]!, place, placeC, culture: own, minutes, cold: isCold }
    return { ...asked, ...hoursOf(asked, comesAtC(question, index)) }
  })
}

/** Where a stage stands. A place that the kitchen does not have is the room; a fridge that nobody measured is as usual. */
function placeOf({ placeOf = {}, places, cold }: DayQuestion, { key, kind }: Stage): Place {
  if (key === cold?.stageKey) return "fridge"
  const place = placeOf[key] ?? (kind === "retard" ? "fridge" : "room")
  return place === "fridge" || places[place] !== undefined ? place : "room"
}
const temperatureOf = ({ places }: DayQuestion, place: Place) => places[place] ?? usualRetardC

/**
 * A retard is in the fridge for as long as it is told, and a proof that goes there instead may come further than it should:
 * how fast a dough ferments near the freezing point is known only roughly (see growthPerHour). By how much is our own judgement.
 */
const furtherInTheCold = 1.25

function hoursOf(asked: Omit<AskedStage, "wanted">, comesAtC: number): Pick<AskedStage, "wanted" | "wantedHours"> {
  const { stage, culture, cold } = asked
  const { drivenByTemperature, referenceC, lowMin, highMin } = stage
  if (!drivenByTemperature || referenceC === undefined) return {}
  const middleHours = (lowMin + highMin) / 120
  if (stage.kind === "retard") return { wantedHours: coolingHours(comesAtC, referenceC, middleHours, culture) }
  const perHour = rate(referenceC, culture)
  if (!(perHour > 0)) return {}
  const high = (perHour * highMin) / 60
  return {
    wantedHours: perHour * middleHours,
    wanted: { low: (perHour * lowMin) / 60, high: cold ? high * furtherInTheCold : high },
  }
}

/** How warm the formula means a dough to be when it comes to a stage: as the last stage before it that says so. */
function comesAtC({ stages, mixedC }: DayQuestion, index: number) {
  const before = stages.slice(0, index).findLast(({ referenceC }) => referenceC !== undefined)
  return before?.referenceC ?? mixedC.value
}

const ofDough = new Set<Stage["kind"]>(["bulk", "fold", "divide", "shape", "proof", "retard"])

function phasesOf({ stages, mixKey, levain }: DayQuestion): Phase[] {
  const from = levain ? stages.findIndex(({ key }) => key === levain.stageKey) + 1 : 0
  const rest = stages.slice(from)
  const dough = rest.findIndex(({ kind }) => ofDough.has(kind) || kind === "bake")
  const until = dough < 0 ? rest.length : dough
  const written = stages.findIndex(({ key }) => key === mixKey)
  const last = rest.slice(0, until).findLastIndex(({ kind }) => kind === "mix")
  const mixing = written >= 0 ? written : last < 0 ? -1 : from + last
  const begins = mixing >= 0 ? mixing : from > 0 ? from + until : 0
  const oven = stages.findIndex(({ kind }, index) => kind === "bake" && index >= begins)
  const out = oven < 0 ? stages.findIndex(({ kind }) => kind === "cool") : stages.findIndex(isNoBake(oven))
  return stages.map((_, index): Phase => {
    if (index < begins) return "before"
    if (index === mixing) return "mixing"
    if (out >= 0 && index >= out) return "after"
    return oven >= 0 && index >= oven ? "oven" : "dough"
  })
}
const isNoBake =
  (oven: number) =>
  ({ kind }: Stage, index: number) =>
    index > oven && kind !== "bake"
