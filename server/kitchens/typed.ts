import type { Typed } from "../web/forms.ts"
import type { Kitchen, Told, Weekly } from "./kitchen.ts"

/** The fields that are measured or assumed, beside which a box says which. */
export const toldFields = {
  room: "roomC",
  proofer: "prooferC",
  fridge: "fridgeC",
  cool: "coolC",
  tap: "tapC",
  ovenHolds: "ovenHolds",
  altitude: "altitudeM",
  scaleStep: "scaleStepG",
  hydration: "starterHydration",
  jarKeeps: "jarKeepsG",
} as const
export type ToldField = keyof typeof toldFields

/** The box beside a field. */
export const measured = (field: string) => `${field}.measured`

/** A form as it was sent, one text a field: of one that came twice the last, and no more of any than somebody types. */
export const typedForm = (body: unknown): Typed =>
  Object.fromEntries(
    Object.entries((body ?? {}) as Record<string, unknown>).map(([name, value]) => [
      name,
      String([value].flat().at(-1) ?? "").slice(0, 1000),
    ]),
  )

/** A kitchen as it stands in its form, exactly as it was typed. */
export function typedKitchen(kitchen: Kitchen): Typed {
  const { oven, coolPlace = "", flours = "", thermometer, sleep, busy = [] } = kitchen
  const told = Object.entries(toldFields).flatMap(([field, key]) => typedOf(field, kitchen[key]))
  const [set = "", reads = ""] = oven?.typed.split(" → ") ?? []
  return {
    ...Object.fromEntries(told),
    ...{ ovenSet: set, ovenReads: reads, coolPlace, flours, weeks: String(weeksFor(busy.length)) },
    thermometer: thermometer === undefined ? "" : thermometer ? "yes" : "no",
    ...{ "sleep.from": sleep?.from ?? "", "sleep.to": sleep?.to ?? "" },
    ...Object.assign({}, ...busy.map(typedWeek)),
  }
}

/** One row stays free for what is still to be said. */
export const weeksFor = (said: number) => Math.min(said + 1, mostWeeks)
export const mostWeeks = 12

const typedOf = (field: string, told: Told<unknown> | undefined): [string, string][] =>
  told
    ? [
        [field, told.typed],
        [measured(field), told.known === "measured" ? "on" : ""],
      ]
    : []

const typedWeek = ({ days, from, to }: Weekly, at: number): Typed => ({
  ...Object.fromEntries(days.map((day) => [`busy.${at}.${day}`, "on"])),
  ...{ [`busy.${at}.from`]: from, [`busy.${at}.to`]: to },
})
