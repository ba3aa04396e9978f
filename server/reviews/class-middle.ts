import type { Say } from "../accounts/say.ts"
import type { Answer } from "../dough/statistics/answer.ts"
import { quantile } from "../dough/statistics/spread.ts"

/** The figures of one bake that a class is laid against. */
export type Figures = { hours?: number; doughC?: number; rise?: number; call: Call }
export type Call = "under" | "well" | "over" | "between" | "not enough to say"

/** The lower quarter, the middle and the upper quarter of a class; undefined when too few say anything. */
type Middle = { low: number; middle: number; high: number } | undefined
export type ClassMiddle = {
  bakes: number
  calls: Partial<Record<Call, number>>
  hours?: Middle
  doughC?: Middle
  rise?: Middle
}

export function middleOf(bakes: Figures[]): ClassMiddle {
  const calls: ClassMiddle["calls"] = {}
  for (const { call } of bakes) calls[call] = (calls[call] ?? 0) + 1
  const of = (key: "hours" | "doughC" | "rise") => quarters(bakes.flatMap((bake) => bake[key] ?? []))
  return { bakes: bakes.length, calls, hours: of("hours"), doughC: of("doughC"), rise: of("rise") }
}

function quarters(values: number[]): Middle {
  const [low, middle, high] = [0.25, 0.5, 0.75].map((share) => known(quantile(values, share)))
  return low === undefined || middle === undefined || high === undefined ? undefined : { low, middle, high }
}
const known = (answer: Answer<number>) => (answer.enough ? answer.value : undefined)

const called: Record<Call, string> = {
  under: "underproofed",
  well: "well proofed",
  over: "overproofed",
  between: "between two verdicts",
  "not enough to say": "without enough to say",
}

/** "Of 9 bakes, 4 well proofed, 3 overproofed, 2 without enough to say." */
export function callsIn({ bakes, calls }: ClassMiddle): string {
  if (bakes === 0) return "Nobody has shared a bake yet."
  const counted = (Object.keys(called) as Call[]).flatMap((call) =>
    calls[call] ? `${calls[call]} ${called[call]}` : [],
  )
  return bakes === 1 ? `One bake, ${counted.join("").slice(2)}.` : `Of ${bakes} bakes, ${counted.join(", ")}.`
}

/** In two sentences, how one bake lay against the class: how far it fermented, then how warm it was and what it was called. */
export function againstClass(own: Figures, middle: ClassMiddle, say: Say): [string, string] {
  return [fermentedAgainst(own, middle, say), warmthAgainst(own, middle, say)]
}

function fermentedAgainst({ hours }: Figures, { hours: theirs, bakes }: ClassMiddle, say: Say) {
  if (hours === undefined)
    return "How far your dough fermented nobody can say: its times or its temperature were not logged."
  const fermented = `Your dough fermented ${say.hours(hours)} reference hours before the oven`
  if (!theirs)
    return `${fermented}; with ${bakes === 1 ? "one bake" : `${bakes} bakes`} there is no middle of the class to lay it against.`
  const place =
    hours > theirs.high
      ? "longer than most of the class"
      : hours < theirs.low
        ? "shorter than most of the class"
        : "as most of the class"
  return `${fermented}, ${place}: the middle was ${say.hours(theirs.middle)}, and half of the bakes lay between ${say.hours(theirs.low)} and ${say.hours(theirs.high)}.`
}

function warmthAgainst({ doughC, call }: Figures, { doughC: theirs, calls, bakes }: ClassMiddle, say: Say) {
  const likewise = calls[call] ?? 0
  const alike =
    likewise > 1 ? `as were ${likewise} of ${bakes}` : bakes > 1 ? `the only one of ${bakes}` : "the only one"
  const verdict =
    call === "not enough to say"
      ? "there is not enough to say how it was proofed"
      : `it was called ${called[call]}, ${alike}`
  if (doughC === undefined || !theirs) return `${verdict[0]!.toUpperCase()}${verdict.slice(1)}.`
  const difference = Math.abs(doughC - theirs.middle)
  const warmth =
    difference < alikeC
      ? `It was as warm as the middle dough (${say.temperature(theirs.middle)})`
      : `It was ${degrees(difference, say)} ${doughC > theirs.middle ? "warmer" : "colder"} than the middle dough (${say.temperature(theirs.middle)})`
  return `${warmth}, and ${verdict}.`
}
// A kitchen thermometer tells no less than this apart. Our own judgement.
const alikeC = 0.3

/** A difference of temperatures: °F have no 32 to add. */
function degrees(c: number, { temperatureUnit }: Say) {
  return `${(temperatureUnit === "C" ? c : c * 1.8).toFixed(1)} °${temperatureUnit}`
}
