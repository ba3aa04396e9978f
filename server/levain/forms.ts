import type { Share } from "../dough/amounts.ts"
import { rate } from "../dough/fermentation/growth.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import { readStays } from "../dough/formula/parts.ts"
import { type Count, counts, type Levain } from "../dough/levain/builds.ts"
import { type Read, readMass, readRise, readTemperature } from "../dough/readings.ts"
import { readPercent } from "../scaling/typed.ts"
import type { Viewer } from "../web/access.ts"
import type { Typed } from "../web/forms.ts"
import { instantAt } from "../web/zones.ts"
import { readFeeding } from "./typed.ts"

/** What is worked out, by the name that stands in the address, and which fields tell it. */
export const finds = {
  feeding: { words: "how to feed it", tells: ["fed", "ripe", "at"] },
  ripe: { words: "when it is ripe", tells: ["ratio", "fed", "at"] },
  fed: { words: "when to feed it", tells: ["ratio", "ripe", "at"] },
  warmth: { words: "how warm it must stand", tells: ["ratio", "fed", "ripe"] },
} as const
export type Find = keyof typeof finds
export const findIn = ({ find = "" }: Typed): Find => (Object.hasOwn(finds, find) ? (find as Find) : "feeding")

/** What is wished, as read; `fedAt`, `ripeAt` and `ratio` as far as what is to be worked out asks for them. */
export type Asked = { find: Find; levain: Levain; count?: Count; ratio?: Ratio; fedAt?: Date; ripeAt?: Date }

type Units = Pick<Viewer, "zone" | "massUnit" | "temperatureUnit">
type Errors = Record<string, string>

/**
 * The form as read, with a sentence for each field that could not be; a blank one is only asked for, in `asks`. Fields that
 * are worked out are not read. `hydration` and `other` are the formula's.
 */
export function readAsked(
  typed: Typed,
  { hydration, other }: { hydration: Share; other: Share },
  viewer: Units,
): { asked?: Asked; errors: Errors; asks?: string } {
  const errors: Errors = {}
  let asks: string | undefined
  const said = (field: string) => (typed[field] ?? "").trim()
  const read = <Value>(field: string, by: (text: string) => Read<Value>): Value | undefined => {
    const result = by(said(field))
    if ("value" in result) return result.value
    if (said(field)) errors[field] = result.error
    else asks ??= result.error
    return undefined
  }
  const maybe = <Value>(field: string, by: (text: string) => Read<Value>) => (said(field) ? read(field, by) : undefined)
  const find = findIn(typed)
  const tells = (field: string) => (finds[find].tells as readonly string[]).includes(field)
  const mass = (text: string) => readMass(text, viewer.massUnit)

  const [neededG, keepG, starterG] = [read("needed", mass), maybe("keep", massOrNone(mass)), maybe("starter", mass)]
  const sticks = readStays(said("sticks"))
  if (!sticks) errors.sticks = "Give one percentage from 0 to below 100, or one mass."
  const starterHydration = read("starterHydration", readPercent(30, 300))
  const rise = read("rise", readRipe)
  const atC = tells("at") ? read("at", (text) => readWarmth(text, viewer)) : usualWarmthC
  const ratio = tells("ratio") ? read("ratio", readFeeding) : undefined
  const wall = (text: string) => readWall(text, viewer.zone)
  const fedAt = tells("fed") ? read("fed", wall) : undefined
  const ripeAt = tells("ripe") ? read("ripe", wall) : undefined
  if (fedAt && ripeAt) refuseOrder(fedAt, ripeAt, errors)
  const count = counts.find((one) => String(one) === typed.count)

  if (Object.keys(errors).length || asks !== undefined) return { errors, asks }
  const levain: Levain = {
    need: { neededG: neededG!, keepG: keepG ?? 0, sticks: sticks! },
    starter: { ...(starterG === undefined ? {} : { g: starterG }), hydration: starterHydration! },
    ...{ hydration, other, rise: rise!, atC: atC! },
  }
  return { asked: { find, levain, count, ratio, fedAt, ripeAt }, errors }
}
// Only until the warmth that is asked for is found.
const usualWarmthC = 24

/** Nothing kept is a mass too. */
const massOrNone =
  (read: (text: string) => Read<number>) =>
  (text: string): Read<number> =>
    /^0+(?:[.,]0*)?\s*(?:g|oz)?$/i.test(text) ? { value: 0 } : read(text)

function readRipe(text: string): Read<number> {
  const bare = /^\+?\d+(?:[.,]\d+)?$/.test(text)
  const read = readRise(bare ? `${text} %` : text, "")
  if ("error" in read)
    return { error: text ? read.error : "Say how far a ripe levain has risen, such as 100 % for doubled." }
  return read.value >= leastRise ? read : { error: "A ripe levain has risen by a tenth at least." }
}
const leastRise = 0.1

function readWarmth(text: string, { temperatureUnit }: Units): Read<number> {
  const read = readTemperature(text, temperatureUnit, "levain")
  if ("error" in read || rate(read.value) > 0) return read
  return { error: "At that temperature nothing grows any more." }
}

function readWall(text: string, zone: string): Read<Date> {
  const at = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?$/.test(text) ? instantAt(text, zone) : undefined
  return at ? { value: at } : { error: "Give a day and a time, such as 2026-11-14 07:30." }
}

function refuseOrder(fedAt: Date, ripeAt: Date, errors: Errors) {
  if (ripeAt <= fedAt) errors.ripe = "That is before it is fed."
  else if (+ripeAt - +fedAt > longestMs) errors.ripe = "That is more than a week after it is fed; check the day."
}
const longestMs = 7 * 86_400_000
