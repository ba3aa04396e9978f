import { z } from "zod"
import { readPieceMasses } from "../dough/piece-list.ts"
import { type Read, readLength, readMass, readTemperature } from "../dough/readings.ts"
import type { Viewer } from "../web/access.ts"
import { maybeReadBy, maybeWords, ticked } from "../web/forms.ts"
import { readWhen, type When } from "./when.ts"

/** By whose clock and in whose units a form is read. `opensAt` is when the bake day's window opens. */
export type Reader = Pick<Viewer, "zone" | "temperatureUnit" | "massUnit"> & { now: Date; opensAt: Date }

/** A moment as people give it, see readWhen; blank reads as null. */
export const whenField = (reader: Reader, present?: When | null) => maybeReadBy(readMoment(reader, present))

const readMoment =
  (reader: Reader, present?: When | null) =>
  (text: string): Read<When> => {
    const when = readWhen(text, { ...reader, present })
    return "error" in when ? when : { value: when }
  }

/** The form's own number, by which a reading that is sent twice is kept once. */
export const entryForm = z.object({ entryId: z.uuid("Press the button once more.") })

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
