import { z } from "zod"
import { readPieceMasses } from "../dough/piece-list.ts"
import {
  type Read,
  readLength,
  readMass,
  readPh,
  readRise,
  readTemperature,
  type TemperatureOf,
} from "../dough/readings.ts"
import type { Finger } from "../dough/verdict.ts"
import { photoSubjects, type ReadingKind, waysOfKnowing } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { maybeReadBy, maybeWords, readBy, ticked, words } from "../web/forms.ts"
import { instantAt, wallTime } from "../web/zones.ts"

/** By whose clock and in whose units a form is read. `opensAt` is when the bake day's window opens. */
export type Reader = Pick<Viewer, "zone" | "temperatureUnit" | "massUnit"> & { now: Date; opensAt: Date }

// A phone's clock may run a little ahead of ours. Our own choice.
const skewMs = 2 * 60_000
// A levain or a trial may come well before the bake day; over a month before it, a slip is likelier. Our own choice.
const longestBeforeMs = 31 * 86_400_000

/** A time as a datetime-local field sends it. Left as it was shown, `present` keeps its seconds and its side of a clock change. */
const readInstant =
  ({ zone, now, opensAt }: Reader, present?: Date | null) =>
  (text: string): Read<Date> => {
    if (present && text === wallTime(present, zone)) return { value: present }
    const at = instantAt(text, zone)
    if (!at) return { error: "Give a day and a time." }
    if (+at > +now + skewMs) return { error: "That is in the future." }
    if (+at < +opensAt - longestBeforeMs) return { error: "That is more than a month before the bake day." }
    return { value: at }
  }

/** When a stage started and ended, corrected by hand; both blank takes the mark back. */
export const markForm = (reader: Reader, present?: { startedAt: Date; endedAt: Date | null }) =>
  z
    .object({
      startedAt: maybeReadBy(readInstant(reader, present?.startedAt)),
      endedAt: maybeReadBy(readInstant(reader, present?.endedAt)),
    })
    .refine(({ startedAt, endedAt }) => startedAt || !endedAt, { path: ["startedAt"], error: "Give the start too." })
    .refine(({ startedAt, endedAt }) => !startedAt || !endedAt || endedAt >= startedAt, {
      path: ["endedAt"],
      error: "The end is before the start.",
    })

/** What a reading says, with what was typed. */
type ReadingValues = { value: number | null; finger: Finger | null; typed: string }

export const fingerWords: Record<Finger, string> = {
  "straight-back": "springs straight back",
  "slowly-partly": "comes back slowly, partly",
  stays: "stays",
}
export const fingers = Object.keys(fingerWords) as Finger[]

/** A reading of one kind. Without a time it is of now, or keeps the time it had. */
export const readingForm = (kind: ReadingKind, reader: Reader, present?: Date) =>
  z.intersection(
    valueForms[kind](reader),
    z.object({
      takenAt: maybeReadBy(readInstant(reader, present)).transform((at) => at ?? present ?? reader.now),
      known: z.enum(waysOfKnowing, "Say how it is known.").default("measured"),
    }),
  )

/** The form's own number, by which a reading that is sent twice is kept once. */
export const entryForm = z.object({ entryId: z.uuid("Press the button once more.") })

const valueForms: Record<ReadingKind, (reader: Reader) => z.ZodType<ReadingValues>> = {
  dough: (reader) => temperature("dough", reader),
  room: (reader) => temperature("room", reader),
  fridge: (reader) => temperature("fridge", reader),
  oven: (reader) => temperature("oven", reader),
  water: (reader) => temperature("water", reader),
  levain: (reader) => temperature("levain", reader),
  rise: () =>
    z
      .object({ value: maybeWords(60), startHeight: maybeWords(60) })
      .transform(({ value: typed, startHeight }, context) => {
        const result = readRise(typed, startHeight)
        if ("value" in result) return measured(result.value, isShare(typed) ? typed : `${startHeight} → ${typed}`)
        context.addIssue({ code: "custom", path: ["value"], message: result.error })
        return z.NEVER
      }),
  ph: () => z.object({ value: readKeeping(readPh) }).transform(({ value }) => measured(value.value, value.typed)),
  finger: () =>
    z
      .object({ value: z.enum(["straight-back", "slowly-partly", "stays"], "Choose what the dent did.") })
      .transform(({ value: finger }) => ({ value: null, finger, typed: fingerWords[finger] })),
  note: () =>
    z
      .object({ value: words("Write something first.", 2000) })
      .transform(({ value: typed }) => ({ value: null, finger: null, typed })),
}

function temperature(of: TemperatureOf, { temperatureUnit }: Reader) {
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
const isBare = (text: string) => /^[-+−\d.,\s]+$/.test(text)
const isShare = (text: string) => /%|percent/i.test(text)

type Measures = Record<"insideC" | "doughMassG" | "bakedMassG" | "heightMm", number | null>

/** A bake's result. What is left as it was `shown` stays `present`, so that saving again rounds nothing. */
export function resultForm({ temperatureUnit, massUnit }: Reader, present: Measures, shown: Record<string, string>) {
  const measure = (field: keyof Measures, read: (text: string) => Read<number>) =>
    maybeReadBy((text) => {
      const kept = text === shown[field] ? present[field] : null
      return kept === null ? read(text) : { value: kept }
    })
  return z
    .object({
      insideC: measure("insideC", (text) => readTemperature(text, temperatureUnit, "inside")),
      doughMassG: measure("doughMassG", (text) => readMass(text, massUnit)),
      bakedMassG: measure("bakedMassG", (text) => readMass(text, massUnit)),
      heightMm: measure("heightMm", readLength),
      ownWords: maybeWords(),
    })
    .refine(({ doughMassG, bakedMassG }) => !doughMassG || !bakedMassG || bakedMassG <= doughMassG, {
      path: ["bakedMassG"],
      error: "A loaf loses water in the oven and cannot weigh more than its dough; check both.",
    })
}

type Pieces = { pieceMassesTyped: string; pieceMassesG: number[] }

/** The masses of the pieces; blank takes them back, and what is left as it stood reads as it did, in whatever units. */
export const piecesForm = ({ massUnit }: Reader, present: Pieces) =>
  z.object({
    pieceMasses: maybeReadBy((text): Read<Pieces> => {
      const typed = text.trim().replaceAll("\r\n", "\n")
      const kept = (pieceMassesTyped: string, pieceMassesG: number[]) => ({ value: { pieceMassesTyped, pieceMassesG } })
      if (typed === present.pieceMassesTyped) return kept(typed, present.pieceMassesG)
      if (typed.length > 2000) return { error: "Keep it under 2000 characters." }
      const read = readPieceMasses(typed, massUnit)
      return "error" in read ? read : kept(isBareList(typed) ? `${typed} ${massUnit}` : typed, read.value)
    }).transform((pieces) => pieces ?? { pieceMassesTyped: "", pieceMassesG: [] }),
  })
const isBareList = (text: string) => /^[\d.,;\s]+$/.test(text)

export const kitchenForm = z.object({ kitchen: maybeWords(300), shared: ticked })

/** What is told of a photo beside the picture. Without a time it was taken now. */
export const photoForm = (reader: Reader, stageKeys: string[]) =>
  z.object({
    subject: z.enum(photoSubjects, "Choose what the photo shows."),
    stageKey: z
      .string()
      .refine((key) => key === "" || stageKeys.includes(key), "This formula has no such stage.")
      .transform((key) => key || null)
      .default(null),
    forClass: ticked,
    takenAt: maybeReadBy(readInstant(reader)).transform((at) => at ?? reader.now),
  })
