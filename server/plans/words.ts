import type { Say } from "../accounts/say.ts"
import type { Broken, DayPlan, Place, StageTrouble, Suggestion } from "../dough/day/day.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import { boilingPointC, gasExpansion, yeastToLeaveOut } from "../dough/heat/altitude.ts"
import type { Known, Warmth } from "./basis.ts"
import type { OwnDay } from "./day.ts"
import { feedingWords } from "./typed.ts"

/** What a person calls the places of their kitchen. */
export const placeNames = ({ coolPlace }: OwnDay["kitchen"]): Record<Place, string> => ({
  ...{ room: "room", proofer: "warm box", fridge: "fridge" },
  cool: coolPlace || "cold place",
})

/** "the room, 20 °C, assumed". */
const knownWords: Record<Known, string> = {
  "that day": "as you say of that day",
  measured: "measured",
  assumed: "assumed",
  taken: "taken for granted, as you have not said",
}

/** What a day rests on, each in a sentence without its full stop. */
export function basisWords({ basis, kitchen, question }: OwnDay, say: Say): string[] {
  const names = placeNames(kitchen)
  const { places, mixed, pieces, ovenHolds } = basis
  const warmth = ({ c, known }: Warmth) => `${say.temperature(c)}, ${knownWords[known]}`
  return [
    ...Object.entries(places).map(([place, one]) => `${capital(names[place as Place])}: ${warmth(one)}`),
    mixedWords(mixed, say),
    ovenHolds === undefined
      ? `${counted(pieces, "piece")}, all in the oven at once: you have not said how much it holds`
      : `${counted(pieces, "piece")}, ${ovenHolds} in the oven at once`,
    ...ovenWords(kitchen, say),
    ...heightWords(kitchen, question.culture, say),
    ...(kitchen.thermometer === false
      ? ["No thermometer in reach: go by the jar and the dough, not by these degrees"]
      : []),
  ]
}

/** By how much an oven is to be set otherwise than a formula says; nothing below what no baker would turn a knob for. */
function ovenWords({ oven }: OwnDay["kitchen"], { temperature, temperatureUnit }: Say): string[] {
  if (!oven) return []
  const { setC, readsC } = oven.value
  const off = Math.round((setC - readsC) * (temperatureUnit === "C" ? 1 : 1.8))
  if (Math.abs(setC - readsC) < leastOffC) return []
  const way = off > 0 ? "higher" : "lower"
  return [
    `Oven: set to ${temperature(setC)} it reads ${temperature(readsC)}, ${knownWords[oven.known]}: set it ${Math.abs(off)} °${temperatureUnit} ${way} than the formula says`,
  ]
}
// Our own judgement.
const leastOffC = 3

/** What height does to dough and bread, from where recipes are usually adjusted. */
function heightWords({ altitudeM }: OwnDay["kitchen"], culture: Culture, say: Say): string[] {
  if (!altitudeM || altitudeM.value < highFromM) return []
  const { low, high } = yeastToLeaveOut(altitudeM.value)
  const less =
    culture === "sourdough" ? "" : `, and ${wholePercent(low)} to ${wholePercent(high)} of the yeast can stay out`
  const more = wholePercent(gasExpansion(altitudeM.value) - 1)
  const boils = say.temperature(boilingPointC(altitudeM.value))
  return [
    `At ${altitudeM.typed} the same gas takes ${more} more room, so the dough is up sooner than these times say${less}; water boils at ${boils}, and no crumb gets hotter`,
  ]
}
const wholePercent = (share: number) => `${Math.round(100 * share)} %`
// 3000 ft: common practice, no published source.
const highFromM = 3000 * 0.3048

function mixedWords({ by, doughC, wantedC, waterC, tap }: OwnDay["basis"]["mixed"], say: Say) {
  const dough = `Dough mixed to ${say.temperature(doughC)}`
  if (by === "unknown") return `${dough}, as wanted: the formula does not say how much water goes in`
  if (by === "as near as water can")
    return `${dough}: no water brings it to the ${say.temperature(wantedC)} that are wanted`
  const rest = "everything else as warm as the room"
  if (waterC! < icyC) return `${dough}, with ice in its water and ${rest}`
  const colder = waterC! < tap.c - 0.5 ? ", colder than your tap," : ""
  return `${dough}, with water at about ${say.temperature(waterC!)}${colder} and ${rest}`
}

// Colder than that no fridge makes it.
const icyC = 3

/** What keeps the day from working, in a sentence. */
export function brokenWords(broken: Broken, { question, basis, kitchen }: OwnDay, say: Say): string {
  const name = (key: string) => `“${question.stages.find((stage) => stage.key === key)?.name ?? key}”`
  const by = say.minutes
  switch (broken.what) {
    case "on the table by":
      return `It would be on the table ${by(broken.byMin)} too late.`
    case "not before":
      return `It would have to begin ${by(broken.byMin)} earlier than you can, which is ${say.dayAndTime(question.notBefore!)}.`
    case "oven":
      return `Load ${broken.load} waits ${by(broken.byMin)} too long for the oven, which holds ${basis.ovenHolds ?? "few"} of ${basis.pieces} at once.`
    case "stage":
      return `${name(broken.stageKey)} ${troubles[broken.why]} in the ${placeNames(kitchen)[broken.place]}, at ${say.temperature(broken.placeC)}.`
    default:
      return `${name(broken.stageKey)} needs your hands while you are ${broken.what}, ${say.dayAndTime(broken.from)} to ${say.time(broken.to)}: ${by(broken.byMin)} of that would have to be free.`
  }
}
const troubles: Record<StageTrouble, string> = {
  "too cold": "does not come far enough",
  "too warm": "goes too far before its time is over",
  "too short": "would be too short",
  "too long": "would be too long",
  "nobody there": "would need somebody there",
}

/** What to do otherwise, in a few words that a button can carry on from. */
export function suggestionWords(suggestion: Suggestion, day: OwnDay, say: Say): string {
  const kinds = [suggestion.kind, ...(suggestion.also ? [suggestion.also] : [])]
  const all = kinds.map((kind) => doing(kind, suggestion, day, say))
  return capital(all.join(", and "))
}

function doing(kind: Suggestion["kind"], { change, moves = [], laterMin, plan }: Suggestion, day: OwnDay, say: Say) {
  const name = (key: string) => `“${day.question.stages.find((stage) => stage.key === key)?.name ?? key}”`
  switch (kind) {
    case "levain": {
      const { written } = day.question.levain ?? {}
      const before = written ? ` instead of ${feedingWords(written)}` : ""
      return `feed the levain ${feedingWords(change.fed!)}${before}`
    }
    case "place": {
      const names = placeNames(day.kitchen)
      const { places } = day.question
      const place = (to: Place) => `${names[to]}${places[to] === undefined ? "" : ` (${say.temperature(places[to])})`}`
      return moves.map(({ stageKey, to }) => `${name(stageKey)} in the ${place(to)}`).join(" and ")
    }
    case "cold": {
      const { stageKey, min } = change.cold!
      return `${name(stageKey)} in the fridge for ${say.minutesRange(min.low, min.high)}`
    }
    case "start earlier":
      return `begin ${say.dayAndTime(plan.startsAt)}`
    case "later":
      return `have it on the table ${laterMin ? `${say.minutes(laterMin)} later` : say.dayAndTime(plan.onTableAt)}`
    case "oven":
      return `bake ${(change.loads ?? 1) * (day.basis.ovenHolds ?? 1)} instead of ${day.basis.pieces}`
  }
}

/** When a plan begins, goes into the oven and comes to the table. */
export function timesWords(plan: DayPlan, say: Say) {
  const oven = plan.loads[0]?.startsAt ?? plan.stages.find(({ stage }) => stage.kind === "bake")?.startsAt
  return {
    begins: say.dayAndTime(plan.startsAt),
    oven: oven ? say.dayAndTime(oven) : "",
    table: say.dayAndTime(plan.onTableAt),
  }
}

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? "" : "s"}`
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
