import { z } from "zod"
import type { Range } from "../dough/amounts.ts"
import type { Figures } from "../dough/formula/formula.ts"
import { shapedForTin } from "../dough/formula/pans.ts"
import { usualBakeLoss, type Wish } from "../dough/formula/scaling.ts"
import type { Scale } from "../dough/formula/weighing.ts"
import { gramsPerOunce } from "../dough/quantity/measures.ts"
import { readMass } from "../dough/readings.ts"
import { type Form, readBy, readForm, type Typed } from "../web/forms.ts"
import { scales, usualScale } from "./scales.ts"
import { readCount, readGap, readPanOf, readPercent, readTimes, readWithUnit, shapeOf } from "./typed.ts"

export type MassUnit = "g" | "oz"

/** The ways to say how much is to be made, by the name that stands in the address. */
export const wishes = {
  times: "Several times",
  dough: "Mass of dough",
  flour: "Mass of flour",
  pieces: "Pieces",
  baked: "Baked pieces",
  pan: "To fill a pan",
  pans: "Another pan",
  class: "For a class",
}
export type WishName = keyof typeof wishes

/** What the form begins with: the formula as it is, in the reader's unit. Losses and the gap are our own guesses. */
export function firstTyped({ dough, flour, pieces }: Figures, unit: MassUnit): Typed {
  const mass = (g: Range | undefined, share = 1) => (g?.high ? massTyped((share * (g.low + g.high)) / 2, unit) : "")
  const count = pieces ? String(pieces.count) : ""
  const lost = middlePercent(usualBakeLoss)
  return {
    ...{ variant: "", by: dough || flour ? "times" : "dough", times: "1", dough: mass(dough), flour: mass(flour) },
    ...{ "pieces.count": count, "pieces.each": mass(pieces?.eachG) },
    ...{ "baked.count": count, "baked.each": mass(pieces?.eachG, 1 - lost / 100), "baked.loss": String(lost) },
    ...{ "pan.count": count || "1", "pan.shape": "rectangle", "pan.size": "" },
    "pan.full": String(middlePercent(shapedForTin.full)),
    ...{ "from.shape": "round", "from.size": "", "to.shape": "round", "to.size": "", compare: "volume" },
    ...{ "class.people": "", "class.loss": "3", scale: usualScale[unit] },
    ...{ "fit.piece": "", "fit.gap": unit === "g" ? "2 cm" : "0.75 in", "fit.shape": "round", "fit.size": "" },
  }
}

const middlePercent = ({ low, high }: Range) => Number((50 * (low + high)).toFixed(1))
const massTyped = (g: number, unit: MassUnit) =>
  String(Number((unit === "g" ? g : g / gramsPerOunce).toFixed(unit === "g" ? 0 : 1)))

/** The way that was chosen; the first for one that there is not. */
export const chosenIn = ({ by }: Typed): WishName =>
  by !== undefined && Object.hasOwn(wishes, by) ? (by as WishName) : "times"

/** The scale that was chosen. */
export const scaleIn = ({ scale = "" }: Typed, unit: MassUnit): Scale =>
  (Object.hasOwn(scales, scale) ? scales[scale] : undefined) ?? scales[usualScale[unit]]!

/** The wish as read; without it, why each of its fields could not be, in `form`. Other ways keep what was typed, unread. */
export const readWish = (typed: Typed, unit: MassUnit): { values?: Wish; form: Form } =>
  readForm(wishForms[chosenIn(typed)](typed, unit), typed)

const massIn = (unit: MassUnit) => readBy((text) => readMass(text, unit))

const wishForms: Record<WishName, (typed: Typed, unit: MassUnit) => z.ZodType<Wish>> = {
  times: () => z.object({ times: readBy(readTimes) }).transform(({ times }) => ({ by: "times", times })),
  dough: (_, unit) => z.object({ dough: massIn(unit) }).transform(({ dough }) => ({ by: "dough", doughG: dough })),
  flour: (_, unit) => z.object({ flour: massIn(unit) }).transform(({ flour }) => ({ by: "flour", flourG: flour })),
  pieces: (_, unit) =>
    z
      .object({ "pieces.count": readBy(readCount("pieces")), "pieces.each": massIn(unit) })
      .transform((read) => ({ by: "pieces", count: read["pieces.count"], eachG: read["pieces.each"] })),
  baked: (_, unit) =>
    z
      .object({
        "baked.count": readBy(readCount("pieces")),
        "baked.each": massIn(unit),
        "baked.loss": readBy(readPercent(0, 40)),
      })
      .transform((read) => ({
        ...{ by: "baked pieces", count: read["baked.count"], bakedG: read["baked.each"], loss: read["baked.loss"] },
      })),
  pan: (typed) =>
    z
      .object({
        "pan.count": readBy(readCount("pans")),
        "pan.size": readBy(readPanOf(shapeOf(typed["pan.shape"]), "height")),
        "pan.full": readBy(readPercent(5, 100)),
      })
      .transform((read) => ({
        ...{ by: "pan", count: read["pan.count"], pan: read["pan.size"] },
        filling: { full: read["pan.full"], mlPerG: shapedForTin.mlPerG },
      })),
  pans: (typed) => {
    const compare = typed.compare === "area" ? "area" : "volume"
    const size = (at: "from" | "to") =>
      readBy(readPanOf(shapeOf(typed[`${at}.shape`]), compare === "volume" ? "height" : undefined))
    return z.object({ "from.size": size("from"), "to.size": size("to") }).transform((read) => ({
      ...{ by: "pan in place of another", from: read["from.size"], to: read["to.size"], compare },
    }))
  },
  class: () =>
    z
      .object({ "class.people": readBy(readCount("people")), "class.loss": readBy(readPercent(0, 40)) })
      .transform((read) => ({ by: "class", people: read["class.people"], loss: read["class.loss"] })),
}

export type Fit = z.output<ReturnType<typeof fitForm>>

/** Pieces and the pan they are to fit into; undefined values and no errors as long as nobody asks. */
export function readFit(typed: Typed): { values?: Fit; form: Form } {
  const asks = ["fit.piece", "fit.size"].some((field) => typed[field]?.trim())
  return asks ? readForm(fitForm(typed), typed) : { form: { typed, errors: {} } }
}

const fitForm = (typed: Typed) =>
  z
    .object({
      "fit.piece": readBy(readWithUnit("Give how wide a piece is with its unit, such as 7 cm.")),
      "fit.gap": readBy(readGap),
      "fit.size": readBy(readPanOf(shapeOf(typed["fit.shape"]))),
    })
    .transform((read) => ({ pieceMm: read["fit.piece"], gapMm: read["fit.gap"], pan: read["fit.size"] }))
