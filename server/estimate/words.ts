import type { Say } from "../accounts/say.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import type { Likely, Time } from "../dough/fermentation/prediction.ts"
import type { ByPlan, Proof } from "./by-plan.ts"
import type { Estimate, Rests } from "./estimate.ts"
import type { Option } from "./options.ts"

/** To whom an estimate is told: `own` when it is their dough, `now` by their clock; `caution` is of egg and dairy left warm. */
export type Telling = { say: Say; now: Date; own: boolean; caution: string | null }

/** "+34 % (28–41)" */
export function riseIn({ value, low, high }: Likely, say: Say): string {
  const [from, to] = [low, high].map((share) => say.rise(share).replace(/^\+| %$/g, ""))
  return `${say.rise(value)} (${from}–${to})`
}

const fiveMinMs = 5 * 60_000
/** A time as likely as its range lets it be: to five minutes, with the day where it is another one. */
export const timeIn = (at: Date, telling: Pick<Telling, "say" | "now">): string =>
  momentIn(new Date(Math.round(+at / fiveMinMs) * fiveMinMs), telling)

/** A moment as it was logged. */
function momentIn(at: Date, { say, now }: Pick<Telling, "say" | "now">): string {
  const day = say.day(at)
  return day === say.day(now) ? say.time(at) : `${day.split(" ")[0]} ${say.time(at)}`
}

type Ready = Extract<Time, { kind: "ready" }>
/** "(15:10–16:20)" */
export function rangeIn({ earliest, latest }: Ready, telling: Telling): string {
  const from = timeIn(earliest, telling)
  return latest ? `(${from}–${timeIn(latest, telling)})` : `(${from} or later, with an open end)`
}
const timeAndRange = (time: Ready, telling: Telling) => `${timeIn(time.readyAt, telling)} ${rangeIn(time, telling)}`

/** The one large sentence: what stands before the time, the time, and its range. */
export function leadIn(time: Time, telling: Telling): { before: string; big: string; after: string } {
  if (time.kind !== "ready") return { before: "ready:", big: "not in sight", after: time.why }
  const before = time.readyAt > telling.now ? "ready about" : "ready since about"
  return { before, big: timeIn(time.readyAt, telling), after: rangeIn(time, telling) }
}

type Rising = Extract<Estimate, { kind: "rising" }>

/** Where the dough stands against its plan, and what that does to supper. */
export function runningIn({ running, tableAt, time }: Rising, onTableAt: Date, telling: Telling): string[] {
  const { say, now } = telling
  const min = running.kind === "on plan" ? 0 : Math.round(running.min / 5) * 5
  const first =
    running.kind === "on plan"
      ? "On plan, as far as can be said."
      : `Running ${say.minutes(min)} ${running.kind === "ahead" ? "ahead of" : "behind"} plan.`
  const off = tableAt ? (+tableAt - +onTableAt) / 60_000 : 0
  const table =
    tableAt && Math.abs(off) > 20
      ? [
          `With the rest as planned, on the table about ${timeIn(tableAt, telling)}; wanted at ${timeIn(onTableAt, telling)}.`,
        ]
      : []
  return time.kind === "ready" && time.readyAt > now ? [first, ...table] : table
}

const placeWords = {
  cooler: "In a cooler place, at about",
  warmer: "In a warmer place, at about",
  fridge: "In the fridge, at",
}

/** What could be done now, and what each does to the time. */
export function optionsIn(
  { options, rise, targetRise, running, time, now }: Rising & { now: Date },
  telling: Telling,
): string[] {
  const shape = `Shape now: it stands at ${riseIn(rise, telling.say)}, the target is ${telling.say.rise(targetRise)}.`
  const past = time.kind === "ready" && time.readyAt <= now
  return [...options.map((option) => optionIn(option, telling)), ...(running.kind !== "on plan" || past ? [shape] : [])]
}

function optionIn({ place, atC, time, hardly }: Option, telling: Telling): string {
  const where = `${placeWords[place]} ${telling.say.temperature(atC)}`
  if (hardly) return `${where}: hardly ${place === "warmer" ? "sooner" : "later"}, as a bowl takes hours to follow.`
  if (time.kind === "ready") return `${where}: ready about ${timeAndRange(time, telling)}.`
  return place === "fridge"
    ? `${where}: it hardly goes on, and not to its target within three days.`
    : `${where}: ${time.why.charAt(0).toLowerCase()}${time.why.slice(1)}`
}

const readingWords = { dough: "A dough temperature", rise: "A rise in the jar" }

export function sharperIn({ sharper }: Rising, say: Say): string | null {
  if (!sharper) return null
  const [from, to] = [sharper.fromMin, sharper.toMin].map((min) => say.minutes(Math.round(min / 5) * 5))
  return `${readingWords[sharper.kind]} now would narrow the range from ${from} to about ${to}.`
}

/** When the last rise read is not what the dough can be believed to have done; null when it fits. */
export function oddIn({ course, riseAt }: Rising, say: Say): string | null {
  const last = course.read.at(-1)
  if (!last) return null
  const { value, low, high } = riseAt(last.at)
  const off = last.rise - value
  if (Math.abs(off) <= 2 * Math.hypot(last.sd, (high - low) / 2.56)) return null
  const side = off > 0 ? "more than this leaven could have made by then" : "less than it should be by then"
  return `The jar reads ${say.rise(last.rise)}, ${side}: look at the start mark, the temperatures and the amounts.`
}

/** On what an estimate rests, in one sentence. */
export function restsIn({ warmth, rises, ownBakes, classLeavens, ratio, culture }: Rests, own: boolean): string {
  const degrees = {
    dough: counted(warmth.given, "temperature of the dough", "temperatures of the dough"),
    room: "the room’s temperature, as nobody measured the dough,",
    plan: "the plan’s temperature, as nobody measured dough or room,",
  }
  const guessed = warmth.from !== "plan" && warmth.measured === 0 ? " (none measured)" : ""
  const risen = rises ? counted(rises, "rise", "rises") : "no rise yet"
  return `Rests on ${degrees[warmth.from]}${guessed} and ${risen}; ${leavenIn(ownBakes, classLeavens, ratio, culture, own)}.`
}

function leavenIn(bakes: number, leavens: number, ratio: number, culture: Culture, own: boolean): string {
  const percent = Math.round((ratio - 1) * 100)
  const lively =
    Math.abs(percent) < 3
      ? "as lively as usual"
      : `${Math.abs(percent)} % ${percent > 0 ? "livelier" : "less lively"} than usual`
  const whose = culture === "sourdough" ? `${own ? "your" : "this"} starter` : `${own ? "your" : "this baker’s"} yeast`
  if (bakes) return `${whose} over ${counted(bakes, "bake", "bakes")}: ${lively}`
  const what = culture === "sourdough" ? "leaven" : "yeast"
  if (leavens) return `the ${what} as of the class’s ${leavens} others: ${lively}`
  return `the ${what} is taken as usual`
}
const counted = (count: number, one: string, many: string) =>
  `${count === 1 ? "one" : count} ${count === 1 ? one : many}`

/** What was reached by the shaping, and what can be said of the proof. */
export function shapedIn(
  { shapedAt, rise, targetRise, hours, proof }: Extract<Estimate, { kind: "shaped" }>,
  telling: Telling,
): string[] {
  const { say } = telling
  const reached = `Its rise ended at ${momentIn(shapedAt, telling)} with ${riseIn(rise, say)}${targetRise === null ? "" : ` of the ${say.rise(targetRise)} asked for`}, after ${say.hours(hours)} reference hours.`
  return [reached, proofIn(proof, telling)]
}

function proofIn(proof: Proof, telling: Telling): string {
  if (proof.kind === "none") return proof.why
  return `${proof.name}: no rise is measured in it, so nothing is estimated. ${byPlanIn(proof, telling)} Go by the finger test.`
}

/** "The plan’s time at 24 °C comes to 15:10–16:30 in this dough." */
export const byPlanIn = ({ plannedC, from, to }: ByPlan, telling: Telling) =>
  `The plan’s time at ${telling.say.temperature(plannedC)} comes to ${timeIn(from, telling)}–${timeIn(to, telling)} in this dough.`
