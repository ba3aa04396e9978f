import { z } from "zod"
import { readRise, readTemperature, type TemperatureUnit } from "../dough/readings.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { maybeReadBy, maybeWords, words } from "../web/forms.ts"
import { instantAt } from "../web/zones.ts"

const day = (message: string) =>
  z
    .string({ error: message })
    .regex(/^\d{4}-\d{2}-\d{2}$/, message)
    .refine(isDay, message)
const clock = z
  .string({ error: "Give a time, such as 18:30." })
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "Give a time, such as 18:30.")
const choice = (message: string) =>
  z
    .string({ error: message })
    .regex(/^[1-9]\d{0,9}$/, message)
    .transform(Number)

/** The form in which an instructor gives a revision to a class, with temperatures as that person types them. */
export const bakeDayForm = (unit: TemperatureUnit) =>
  z
    .object({
      classId: choice("Choose a class."),
      revisionId: choice("Choose a published formula."),
      title: words("Name the bake day.", 100),
      opensOn: day("Give the first day."),
      closesOn: day("Give the last day."),
      onTableTime: clock,
      lookFor: maybeWords(),
      targetDoughC: maybeReadBy((text) => readTemperature(text, unit, "dough")),
      targetRise: maybeReadBy((text) => readRise(text, "")),
    })
    .refine(({ opensOn, closesOn }) => opensOn <= closesOn, {
      path: ["closesOn"],
      error: "The last day is before the first.",
    })

/**
 * When a student wants the bread on the table, on a day of the window and by that student's own clock, and in which of the
 * formula's ways it is made.
 */
export const planForm = ({ opensOn, closesOn, content }: Planned, zone: string) =>
  z
    .object({
      day: day("Choose a day."),
      time: clock,
      variant: z.enum(["", ...content.variants.map(({ key }) => key)], "Choose one of these ways.").default(""),
    })
    .refine(({ day }) => day >= opensOn && day <= closesOn, { path: ["day"], error: "That day is outside the window." })
    .transform(({ day, time, variant }) => ({ onTableAt: instantAt(`${day}T${time}`, zone)!, variant }))
type Planned = { opensOn: string; closesOn: string; content: Pick<FormulaContent, "variants"> }

function isDay(text: string) {
  return instantAt(`${text}T12:00`, "UTC") !== undefined
}
