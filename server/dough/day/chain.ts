import type { Range } from "../amounts.ts"
import { type AskedStage, askedOf } from "./asked.ts"
import type { DayQuestion, StageTrouble } from "./day.ts"
import { type Folds, foldsIn, type HandsOn, handsOnOf } from "./hands-on.ts"
import { afterC, type Kitchen } from "./standing.ts"

/** One thing after the other: the stages of a day, the ones in the oven once for each load. `stage` is the number of the stage. */
export type Link = { stage: number; load: number; asked: AskedStage; handsOn: HandsOn }

/**
 * A day as a chain of links. `waitMin` is how long the last load waits for the oven, `proofs` the link whose dough waits. With
 * more than one load every load takes the same `bakeMin`, minutes of each bake stage.
 */
export type Chain = { links: Link[]; asked: AskedStage[]; waitMin: number; proofs: number; mixedC: number }

/** How long a link may take, in minutes, and how long it had best take; what is wrong where it cannot be right. */
export type Step = {
  link: Link
  low: number
  middle: number
  high: number
  folds: Folds | undefined
  trouble?: StageTrouble
  /** How many minutes the last load waits longer than its proof may. */
  overMin?: number
}

/** How often the oven is filled: whole times, once where nobody said. */
export const loadsOf = ({ loads }: DayQuestion) => Math.max(1, Math.round(loads) || 1)

/** The chain of a day whose bakes take their middle or, in a hurry, their shortest. Throws RangeError like askedOf. */
export function chainOf(question: DayQuestion, inHurry: boolean): Chain {
  const stages = askedOf(question)
  const loads = loadsOf(question)
  const bakeMin = ({ low, high }: Range) => (inHurry ? low : Math.round((low + high) / 2))
  const asked = loads > 1 ? stages.map((one) => (one.phase === "oven" ? withMinutes(one, bakeMin) : one)) : stages
  const links = asked.map((one, stage): Link => {
    return { stage, load: 1, asked: one, handsOn: handsOnOf(one, asked[stage - 1], asked[stage + 1]) }
  })
  const oven = links.filter(({ asked }) => asked.phase === "oven")
  const out = links.findIndex(({ asked }) => asked.phase === "after")
  const until = out < 0 ? links.length : out
  const more = Array.from({ length: loads - 1 }, (_, i) => oven.map((link) => ({ ...link, load: i + 2 })))
  const runMin = oven.reduce((sum, { asked }) => sum + asked.minutes.low, 0)
  return {
    links: [...links.slice(0, until), ...more.flat(), ...links.slice(until)],
    asked,
    waitMin: oven.length ? (loads - 1) * runMin : 0,
    proofs: asked.findLastIndex(waitsForOven),
    mixedC: question.mixedC.value,
  }
}
const withMinutes = (asked: AskedStage, bakeMin: (minutes: Range) => number) => {
  const minutes = bakeMin(asked.minutes)
  return { ...asked, minutes: { low: minutes, high: minutes } }
}

/** The last fermentation before the oven: there the pieces of later loads wait, whatever else is done to the first. */
export const waitsForOven = ({ phase, wanted, stage: { kind } }: AskedStage) =>
  phase === "dough" && (wanted !== undefined || kind === "proof" || kind === "retard" || kind === "bulk")

/** What a link may take when the dough comes to it at this temperature, °C. */
export function stepAt(chain: Chain, index: number, doughC: number, kitchen: Kitchen): Step {
  const link = chain.links[index]!
  const waitMin = index === chain.proofs ? chain.waitMin : 0
  const range = rangeOf(link.asked, doughC, kitchen)
  const { foldsMin, atStartMin } = link.handsOn
  const folds = foldsMin ? foldsIn(foldsMin, range.low) : undefined
  const handsOn = folds || !foldsMin ? link.handsOn : { ...link.handsOn, atStartMin: Math.max(atStartMin, foldsMin) }
  return { ...withWaiting(range, waitMin), link: { ...link, handsOn }, folds }
}

type Reach = { low: number; middle: number; high: number; trouble?: StageTrouble }

function rangeOf({ minutes, wanted, cold, placeC, culture }: AskedStage, doughC: number, kitchen: Kitchen): Reach {
  const { low, high } = minutes
  if (!wanted) return { low, middle: (low + high) / 2, high }
  const standing = kitchen(placeC, culture)
  const fromMin = standing.minutesTo(doughC, wanted.low)
  const toMin = Math.min(standing.minutesTo(doughC, wanted.high), cold ? Number.POSITIVE_INFINITY : longestMin)
  if (cold) return inTheCold(minutes, fromMin, toMin)
  if (fromMin > longestMin) return { ...exactly(longestMin), trouble: "too cold" }
  const whole = inWholeMinutes(fromMin, toMin)
  const middle = Math.round(standing.minutesTo(doughC, (wanted.low + wanted.high) / 2))
  return { ...whole, middle: clamp(middle, whole.low, whole.high) }
}
/** A dough that takes longer than two days is lost. Our own judgement. */
export const longestMin = 48 * 60

function inTheCold({ low, high }: Range, fromMin: number, toMin: number): Reach {
  if (fromMin > high) return { ...exactly(high), trouble: "too cold" }
  if (toMin < low) return { ...exactly(low), trouble: "too warm" }
  const whole = inWholeMinutes(Math.max(low, fromMin), Math.min(high, toMin))
  return { ...whole, middle: (whole.low + whole.high) / 2 }
}

const exactly = (minutes: number) => ({ low: minutes, middle: minutes, high: minutes })
const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high)

/** Whole minutes; those on either side where there is none in between, as of a stage that is told without a range. */
function inWholeMinutes(low: number, high: number) {
  const [up, down] = [Math.ceil(low), Math.floor(high)]
  return up <= down ? { low: up, high: down } : { low: down, high: up }
}

/** The first load is loaded a little early, so that the last is not too late by as much. */
function withWaiting(range: Reach, waitMin: number): Omit<Step, "link" | "folds"> {
  if (!waitMin) return range
  const high = range.high - waitMin
  if (high < range.low) return { ...range, ...exactly(range.low), overMin: range.low - high }
  return { ...range, high, middle: clamp(range.middle - waitMin / 2, range.low, high) }
}

/** The dough's temperature, °C, when a link begins whose last one began at `doughC` and took so many minutes. */
export function comesToNextAtC({ links, mixedC, asked }: Chain, index: number, doughC: number, minutes: number) {
  const [{ asked: own }, next] = [links[index]!, links[index + 1]]
  if (next && next.asked.phase !== "before" && own.phase === "before") return mixedC
  if (own.phase === "before") return standsAtC(next?.asked ?? asked[0]!, afterC(doughC, own.placeC, minutes))
  return own.phase === "dough" ? afterC(doughC, own.placeC, minutes) : doughC
}

/** A levain is as warm as its place at once, but in the fridge, where it cools as a dough does. */
const standsAtC = ({ place, placeC }: AskedStage, comesAtC: number) => (place === "fridge" ? comesAtC : placeC)

/** The temperature, °C, with which a day begins. */
export const beginsAtC = ({ links, mixedC }: Chain) =>
  links[0]?.asked.phase === "before" ? links[0].asked.placeC : mixedC
