import { planForm } from "../bake-days/forms.ts"
import type { Place } from "../dough/day/day.ts"
import type { Read, TemperatureUnit } from "../dough/readings.ts"
import { readDuration } from "../formulas/durations.ts"
import { readWarmth } from "../kitchens/warmth.ts"
import { readFeeding } from "../levain/typed.ts"
import { readCount } from "../scaling/typed.ts"
import { readForm, type Typed } from "../web/forms.ts"
import { instantAt } from "../web/zones.ts"
import type { DayAsked } from "./own-day.ts"
import { mostLoads } from "./question.ts"
import { mostErrands, placeField } from "./typed.ts"
import type { Wishes } from "./wishes.ts"

export type Reader = { zone: string; temperatureUnit: TemperatureUnit }
type Values = Pick<DayAsked, "onTableAt" | "variant" | "wishes">
type Errors = Record<string, string>
/** Puts a sentence beside a field. */
type Note = (field: string, message: string) => void

/**
 * A day as its form tells it, with a sentence for each field that cannot be. A form that says only day, time and variant
 * leaves the `present` wishes as they are.
 */
export function readDay(
  typed: Typed,
  { bakeDay, wishes: present }: Pick<DayAsked, "bakeDay" | "wishes">,
  { zone, temperatureUnit }: Reader,
): { values?: Values; errors: Errors } {
  const { values, form } = readForm(planForm(bakeDay, zone), typed)
  const errors: Errors = { ...form.errors }
  const note: Note = (field, message) => {
    errors[field] = message
  }
  const wishes = typed.whole ? readWishes(typed, { zone, temperatureUnit }, note) : present
  const begins = values && wishes.notBefore ? instantAt(wishes.notBefore, zone) : undefined
  if (begins && values && begins >= values.onTableAt) note("notBefore", "That is after it is to be on the table.")
  return values && !Object.keys(errors).length ? { values: { ...values, wishes }, errors } : { errors }
}

function readWishes(typed: Typed, { zone, temperatureUnit }: Reader, note: Note): Wishes {
  const said = (field: string) => (typed[field] ?? "").trim()
  const read = <Value>(field: string, by: (text: string) => Read<Value>): Value | undefined => {
    if (!said(field)) return undefined
    const result = by(said(field))
    if ("value" in result) return result.value
    note(field, result.error)
    return undefined
  }
  const roomC = read("room", (text) => readWarmth(text, temperatureUnit))
  const notBefore = read("notBefore", (text) => readWall(text, zone))
  const places = readPlaces(typed)
  const feeding = read("feeding", readFeeding)
  const [pieces, ovenHolds] = [read("pieces", readCount("pieces")), read("ovenHolds", readCount("pieces at once"))]
  const busy = readErrands(typed, zone, note)
  if ((pieces ?? 1) / (ovenHolds ?? pieces ?? 1) > mostLoads)
    note("ovenHolds", `That fills the oven more than ${mostLoads} times; check both numbers.`)
  return {
    ...(roomC === undefined ? {} : { roomC, roomTyped: withUnit(said("room"), temperatureUnit) }),
    ...(notBefore ? { notBefore } : {}),
    ...(busy.length ? { busy } : {}),
    ...(typed.usualBusy === "on" ? {} : { usualBusy: false }),
    ...(Object.keys(places).length ? { places } : {}),
    ...readCold(said("cold"), said("coldFor"), note),
    ...(feeding ? { feeding } : {}),
    ...(pieces ? { pieces } : {}),
    ...(ovenHolds ? { ovenHolds } : {}),
  }
}

const withUnit = (text: string, unit: TemperatureUnit) => (/[a-z°]/i.test(text) ? text : `${text} °${unit}`)

const readWall = (text: string, zone: string): Read<string> =>
  /^\d{4}-\d\d-\d\dT\d\d:\d\d/.test(text) && instantAt(text.slice(0, 16), zone)
    ? { value: text.slice(0, 16) }
    : { error: "Give a day and a time." }

const isPlace = (text: string): text is Place => ["room", "proofer", "cool", "fridge"].includes(text)
/** A stage's key, not something that every object has. */
const stageField = /^place\.([\w-]{1,60})$/

function readPlaces(typed: Typed): Record<string, Place> {
  const asked = Object.entries(typed).flatMap(([field, text]): [string, Place][] => {
    const [, key] = stageField.exec(field) ?? []
    return key && field === placeField(key) && isPlace(text) ? [[key, text]] : []
  })
  return Object.fromEntries(asked)
}

/** What goes through the fridge and for how long; a night, where nobody says. */
function readCold(stageKey: string, forText: string, note: Note): Pick<Wishes, "cold"> {
  if (!stageKey) return {}
  const read = forText ? readDuration(forText) : { value: aNight }
  if ("error" in read) {
    note("coldFor", read.error)
    return {}
  }
  if (read.value.low < leastColdMin || read.value.high > mostColdMin) {
    note("coldFor", "From an hour to four days.")
    return {}
  }
  return { cold: { stageKey, lowMin: read.value.low, highMin: read.value.high } }
}
// From an evening to a morning: common practice, no published source.
const aNight = { low: 8 * 60, high: 14 * 60 }
const [leastColdMin, mostColdMin] = [60, 4 * 24 * 60]

function readErrands(typed: Typed, zone: string, note: Note): { from: string; to: string }[] {
  return Array.from({ length: mostErrands }, (_, at) => at).flatMap((at) => {
    const [from, to] = [`busy.${at}.from`, `busy.${at}.to`]
    const [fromText, toText] = [typed[from]?.trim() ?? "", typed[to]?.trim() ?? ""]
    if (!fromText && !toText) return []
    const [start, end] = [readWall(fromText, zone), readWall(toText, zone)]
    if ("error" in start) note(from, start.error)
    if ("error" in end) note(to, end.error)
    if ("error" in start || "error" in end) return []
    if (end.value > start.value) return [{ from: start.value, to: end.value }]
    note(to, "That ends before it begins.")
    return []
  })
}
