import type { Range } from "../dough/amounts.ts"
import type { DayQuestion, Place } from "../dough/day/day.ts"
import { workOut } from "../dough/formula/formula.ts"
import { mixesOf } from "../dough/heat/to-mix.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Stage } from "../dough/schedule.ts"
import { cultureOf, type FormulaContent } from "../formulas/content.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { instantAt } from "../web/zones.ts"
import { awayBetween } from "./away.ts"
import type { Basis, Warmth } from "./basis.ts"
import { levainStage, writtenFeeding } from "./levain.ts"
import { mixedIn } from "./mixed.ts"
import type { Wishes } from "./wishes.ts"

type Asked = {
  /** As it is made in the person's variant. */
  content: FormulaContent
  own: Ingredient[]
  targetDoughC: number | null
  kitchen: Kitchen
  wishes: Wishes
  onTableAt: Date
  zone: string
  /** Nobody can begin before this instant. */
  now?: Date
}

/** What is asked of the core for one person's day, and what that rests on. */
export function questionOf({ content, own, targetDoughC, kitchen, wishes, onTableAt, zone, now }: Asked): {
  question: DayQuestion
  basis: Basis
} {
  const figures = workOut(content, { measures: content.measures, own })
  const culture = cultureOf(content, own)
  const usualC = referenceOf(content.stages) ?? usualDoughC
  const places = placesIn(kitchen, wishes, content.stages, usualC)
  const tap = told(kitchen.tapC) ?? { c: usualTapC, known: "taken" as const }
  const mix = mixesOf(content.parts, figures.parts, own).find(isFinal(content))
  const mixed = mixedIn({ room: places.room, tap, fridgeC: places.fridge!.c }, mix, targetDoughC ?? usualC)
  const pieces = wishes.pieces ?? figures.pieces?.count ?? 1
  const ovenHolds = wishes.ovenHolds ?? (isLoaf(figures.pieces?.eachG) ? kitchen.ovenHolds?.value : undefined)
  const stages = ripeningByWarmth(content.stages, places.room.known === "taken" ? usualC : usualRipeningC)
  const from = new Date(+onTableAt - longestOf(stages))
  const earliest = [wishes.notBefore && instantAt(wishes.notBefore, zone), now].filter((at) => at instanceof Date)
  return {
    question: {
      ...{ stages, culture, places: inDegrees(places), onTableBy: onTableAt },
      ...(wishes.places ? { placeOf: knownPlaces(wishes.places, stages, places) } : {}),
      mixedC: { value: mixed.doughC, known: "assumed" },
      ...(earliest.length ? { notBefore: new Date(Math.max(...earliest.map(Number))) } : {}),
      ...(now ? { now } : {}),
      away: awayBetween({ kitchen, wishes, zone, from, to: new Date(+onTableAt + 3 * dayMs) }),
      loads: Math.min(Math.ceil(pieces / (ovenHolds ?? pieces)), mostLoads),
      ...coldOf(wishes, stages),
      ...levainOf(content, figures, stages, kitchen, wishes, culture),
    },
    basis: { places, mixed, pieces, ...(ovenHolds === undefined ? {} : { ovenHolds }) },
  }
}
const dayMs = 86_400_000

/** A kitchen counts loaves and tins; how many rolls make one nobody has said. */
const isLoaf = (eachG: Range | undefined) => !eachG || eachG.low >= leastLoafG
// Smaller, they stand on a tray together. Our own judgement.
const leastLoafG = 300
// More is no day at home, and fits nowhere. Our own limit.
export const mostLoads = 60

// An ordinary kitchen's dough, where the formula says nothing. Our own choice.
const usualDoughC = 24
// Between a cold spring's and a warm autumn's tap. Our own guess.
const usualTapC = 15
// At or below 4 °C (40 °F): US Food and Drug Administration, advice on refrigerators at home, from memory.
const usualFridgeC = 4

const referenceOf = (stages: Stage[]) =>
  stages.find(({ drivenByTemperature, referenceC }) => drivenByTemperature && referenceC !== undefined)?.referenceC

const isFinal =
  ({ parts }: FormulaContent) =>
  ({ key }: { key: string }) =>
    parts.some((part) => part.key === key && part.goesInto === "")

const told = (one: Kitchen["roomC"]): Warmth | undefined => one && { c: one.value, known: one.known }

function placesIn(kitchen: Kitchen, wishes: Wishes, stages: Stage[], usualC: number): Basis["places"] {
  const { roomC } = wishes
  const room: Warmth | undefined = roomC === undefined ? told(kitchen.roomC) : { c: roomC, known: "that day" }
  const retardC = stages.find(({ kind, referenceC }) => kind === "retard" && referenceC !== undefined)?.referenceC
  const [proofer, cool] = [told(kitchen.prooferC), told(kitchen.coolC)]
  return {
    room: room ?? { c: usualC, known: "taken" },
    ...(proofer ? { proofer } : {}),
    ...(cool ? { cool } : {}),
    fridge: told(kitchen.fridgeC) ?? { c: retardC ?? usualFridgeC, known: "taken" },
  }
}

const inDegrees = (places: Basis["places"]) =>
  Object.fromEntries(Object.entries(places).map(([place, { c }]) => [place, c])) as DayQuestion["places"]

/** Without stages that this formula does not have, and places that the kitchen does not have any more. */
const knownPlaces = (asked: Record<string, Place>, stages: Stage[], places: Basis["places"]) =>
  Object.fromEntries(
    Object.entries(asked).filter(([key, place]) => stages.some((stage) => stage.key === key) && places[place]),
  )

function coldOf({ cold }: Wishes, stages: Stage[]): Pick<DayQuestion, "cold"> {
  if (!cold || !stages.some(({ key, drivenByTemperature }) => key === cold.stageKey && drivenByTemperature)) return {}
  return { cold: { stageKey: cold.stageKey, min: { low: cold.lowMin, high: cold.highMin } } }
}

/**
 * A levain ripens by its own temperature, whether or not its writer ticked that: what a formula ticks is where the dough's
 * own rising is counted. Of a kitchen that nobody knows its times are left as they are written.
 */
function ripeningByWarmth(stages: Stage[], forC: number): Stage[] {
  const ripening = levainStage(stages)
  return stages.map((stage) =>
    stage === ripening ? { ...stage, drivenByTemperature: true, referenceC: stage.referenceC ?? forC } : stage,
  )
}
// What hours of a levain are meant for where nobody says: a kitchen from evening to morning. Our own judgement.
const usualRipeningC = 22

function levainOf(
  content: FormulaContent,
  figures: ReturnType<typeof workOut>,
  stages: Stage[],
  { starterHydration }: Kitchen,
  { feeding }: Wishes,
  culture: DayQuestion["culture"],
): Pick<DayQuestion, "levain"> {
  const [written, stage] = [writtenFeeding(content, figures), levainStage(stages)]
  if (!written || !stage || culture !== "sourdough") return {}
  return {
    levain: {
      ...{ stageKey: stage.key, written, fed: feeding ?? written },
      starterHydration: starterHydration?.value ?? 1,
    },
  }
}

/** As long before the table as anything of such a day could begin: all stages at their longest, three times over, and two days. */
const longestOf = (stages: Stage[]) => {
  const longest = stages.reduce((sum, { highMin }) => sum + highMin, 0) * 60_000
  return Math.min(3 * longest + 2 * dayMs, 14 * dayMs)
}
