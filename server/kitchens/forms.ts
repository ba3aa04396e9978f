import { type Read, readMass, readTemperature, type TemperatureOf, type TemperatureUnit } from "../dough/readings.ts"
import { readCount, readPercent } from "../scaling/typed.ts"
import type { Typed } from "../web/forms.ts"
import { readAltitude } from "./altitude.ts"
import type { Kitchen, Told, Weekly } from "./kitchen.ts"
import { measured, mostWeeks, type ToldField, toldFields } from "./typed.ts"
import { readWarmth } from "./warmth.ts"

type Units = { temperatureUnit: TemperatureUnit; massUnit: "g" | "oz" }
type Errors = Record<string, string>
type Reads = { read: (text: string) => Read<number>; unit?: string }

/** A kitchen as its form tells it, with a sentence for each field that cannot be; what is blank is unknown. */
export function readKitchen(typed: Typed, { temperatureUnit, massUnit }: Units): { kitchen: Kitchen; errors: Errors } {
  const errors: Errors = {}
  const degrees = (of: TemperatureOf): Reads => ({
    read: (text) => readTemperature(text, temperatureUnit, of),
    unit: `°${temperatureUnit}`,
  })
  const warmth: Reads = { read: (text) => readWarmth(text, temperatureUnit), unit: `°${temperatureUnit}` }
  const mass: Reads = { read: (text) => readMass(text, massUnit), unit: massUnit }
  const readers: Record<ToldField, Reads> = {
    ...{ room: warmth, proofer: warmth, cool: warmth },
    ...{ fridge: degrees("fridge"), tap: degrees("water") },
    ovenHolds: { read: readCount("loaves or tins") },
    altitude: { read: readAltitude, unit: "m" },
    ...{ scaleStep: mass, jarKeeps: mass },
    hydration: { read: readPercent(30, 300), unit: "%" },
  }
  const told = Object.entries(readers).flatMap(([field, reads]) => {
    const one = readTold(typed, field, reads, errors)
    return one ? [[toldFields[field as ToldField], one] as const] : []
  })
  return {
    kitchen: {
      ...(Object.fromEntries(told) as Kitchen),
      ...readOven(typed, degrees("oven"), errors),
      ...readWords(typed, "coolPlace", 60, errors),
      ...readWords(typed, "flours", 500, errors),
      ...(typed.thermometer === "yes" || typed.thermometer === "no"
        ? { thermometer: typed.thermometer === "yes" }
        : {}),
      ...readSleep(typed, errors),
      ...readBusy(typed, errors),
    },
    errors,
  }
}

const said = (typed: Typed, field: string) => (typed[field] ?? "").trim()
/** With the unit it was read in, so that it still says the same when somebody changes theirs. */
const withUnit = (text: string, unit = "") => (unit && !/[a-z°%]/i.test(text) ? `${text} ${unit}` : text)
const knownIn = (typed: Typed, field: string): Told<never>["known"] =>
  typed[measured(field)] === "on" ? "measured" : "assumed"

function readTold(typed: Typed, field: string, { read, unit }: Reads, errors: Errors): Told<number> | undefined {
  const text = said(typed, field)
  if (!text) return undefined
  const result = text.length > 60 ? { error: "Keep it short: one number." } : read(text)
  if ("value" in result) return { value: result.value, known: knownIn(typed, field), typed: withUnit(text, unit) }
  errors[field] = result.error
  return undefined
}

/** Measured, as nobody knows the second without a thermometer. */
function readOven(typed: Typed, { read, unit }: Reads, errors: Errors): Pick<Kitchen, "oven"> {
  const [set, reads] = [said(typed, "ovenSet"), said(typed, "ovenReads")]
  if (!set && !reads) return {}
  if (!set) errors.ovenSet = "Say too what the oven was set to."
  if (!reads) errors.ovenReads = "Say too what a thermometer in it read."
  const [setC, readsC] = [readInto(set, "ovenSet", read, errors), readInto(reads, "ovenReads", read, errors)]
  if (setC === undefined || readsC === undefined) return {}
  const typedBoth = `${withUnit(set, unit)} → ${withUnit(reads, unit)}`
  return { oven: { value: { setC, readsC }, known: "measured", typed: typedBoth } }
}

function readInto(text: string, field: string, read: Reads["read"], errors: Errors) {
  if (!text) return undefined
  const result = text.length > 60 ? { error: "Keep it short: one number." } : read(text)
  if ("value" in result) return result.value
  errors[field] = result.error
  return undefined
}

function readWords<Field extends "coolPlace" | "flours">(typed: Typed, field: Field, most: number, errors: Errors) {
  const text = said(typed, field)
  if (text.length > most) errors[field] = `Keep it under ${most} characters.`
  return (text ? { [field]: text } : {}) as Pick<Kitchen, Field>
}

const clockTime = /^([01]\d|2[0-3]):[0-5]\d$/
const asTime = "Give a time, such as 22:30."

function readSleep(typed: Typed, errors: Errors): Pick<Kitchen, "sleep"> {
  const hours = readHours(typed, "sleep", errors)
  return hours ? { sleep: hours } : {}
}

/** From one wall time to another; the same twice would be no time, or a whole day. */
function readHours(typed: Typed, at: string, errors: Errors) {
  const [from, to] = [said(typed, `${at}.from`), said(typed, `${at}.to`)]
  if (!from && !to) return undefined
  if (!clockTime.test(from)) errors[`${at}.from`] = asTime
  if (!clockTime.test(to)) errors[`${at}.to`] = asTime
  if (from === to && clockTime.test(from)) errors[`${at}.to`] = "That is no time at all."
  return { from, to }
}

function readBusy(typed: Typed, errors: Errors): Pick<Kitchen, "busy"> {
  const rows = Array.from({ length: mostWeeks }, (_, at) => at).flatMap((at): Weekly[] => {
    const days = [1, 2, 3, 4, 5, 6, 7].filter((day) => typed[`busy.${at}.${day}`] === "on")
    const hours = readHours(typed, `busy.${at}`, errors)
    if (hours && !days.length) errors[`busy.${at}.days`] = "Tick the days on which that is so."
    if (!hours && days.length) errors[`busy.${at}.from`] = asTime
    return hours && days.length ? [{ days, ...hours }] : []
  })
  return rows.length ? { busy: rows } : {}
}
