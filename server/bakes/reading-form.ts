import { z } from "zod"
import {
  type Read,
  readPh,
  readRise,
  readTemperature,
  type TemperatureOf,
  type TemperatureUnit,
} from "../dough/readings.ts"
import { type ReadingKind, waysOfKnowing } from "../schema.ts"
import { maybeWords, readBy, words } from "../web/forms.ts"
import { type Reader, whenField } from "./forms.ts"
import { fingers, fingerWords, placesOf } from "./reading-words.ts"
import type { When } from "./when.ts"

/** What a reading says, with what was typed. */
type ReadingValues = { value: number | null; finger: (typeof fingers)[number] | null; typed: string }

/** A reading of one kind. Without a time it is of now, or keeps the time it had. */
export const readingForm = (kind: ReadingKind, reader: Reader, present?: When) =>
  z
    .intersection(
      valueForms[kind](reader),
      z.object({
        takenAt: whenField(reader, present).transform(
          (when) => when ?? present ?? { at: reader.now, aboutMin: null, typed: "" },
        ),
        known: z.enum(waysOfKnowing, "Say how it is known.").default("measured"),
        of: ofForm(kind),
      }),
    )
    .transform(({ takenAt: when, ...said }) => ({
      ...said,
      takenAt: when.at,
      takenTyped: when.typed,
      takenAboutMin: when.aboutMin,
    }))

/** What of, where the kind leaves it open; the first place is what most people mean. */
function ofForm(kind: ReadingKind) {
  const places = Object.keys(placesOf[kind] ?? { "": "" })
  return z.enum(places, "Say what of.").default(places[0]!)
}

const valueForms: Record<ReadingKind, (reader: Reader) => z.ZodType<ReadingValues>> = {
  dough: (reader) => temperature("dough", reader),
  room: (reader) => temperature("room", reader),
  fridge: (reader) => temperature("fridge", reader),
  oven: (reader) => temperature("oven", reader),
  water: (reader) => temperature("water", reader),
  levain: (reader) => temperature("levain", reader),
  rise: () =>
    z.object({ value: maybeWords(60), startHeight: maybeWords(60) }).transform(({ value, startHeight }, context) => {
      const result = readRise(value, startHeight)
      if ("value" in result) return measured(result.value, isShare(value) ? value : heights(startHeight, value))
      context.addIssue({ code: "custom", path: ["value"], message: result.error })
      return z.NEVER
    }),
  ph: () => z.object({ value: readKeeping(readPh) }).transform(({ value }) => measured(value.value, value.typed)),
  finger: () =>
    z
      .object({ value: z.enum(fingers, "Choose what the dent did.") })
      .transform(({ value: finger }) => ({ value: null, finger, typed: fingerWords[finger] })),
  note: () =>
    z
      .object({ value: words("Write something first.", 2000) })
      .transform(({ value: typed }) => ({ value: null, finger: null, typed })),
}

function temperature(of: TemperatureOf, { temperatureUnit }: { temperatureUnit: TemperatureUnit }) {
  const withUnit = (typed: string) => (isBare(typed) ? `${typed} °${temperatureUnit}` : typed)
  return z
    .object({ value: readKeeping((text) => readTemperature(text, temperatureUnit, of)) })
    .transform(({ value: { value, typed } }) => measured(value, withUnit(typed)))
}

const readKeeping = (read: (text: string) => Read<number>) =>
  readBy((text): Read<{ value: number; typed: string }> => {
    const result = read(text)
    return "value" in result ? { value: { value: result.value, typed: text.trim() } } : result
  })
const measured = (value: number, typed: string): ReadingValues => ({ value, finger: null, typed })
/** The form asks for millimetres: heights without a unit are that. */
const heights = (start: string, now: string) => `${start} → ${isBare(start) && isBare(now) ? `${now} mm` : now}`
const isBare = (text: string) => /^[-+−\d.,\s]+$/.test(text)
const isShare = (text: string) => /%|percent/i.test(text)
