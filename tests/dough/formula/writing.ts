import { expect } from "vitest"
import type { WrittenFormula, WrittenLine, WrittenPart } from "../../../server/dough/formula/written.ts"

/** One line a row: "500 g | bread flour". */
export const lines = (rows: string): WrittenLine[] =>
  rows.split("\n").map((row) => {
    const [quantity = "", ingredient = ""] = row.split("|").map((cell) => cell.trim())
    return { quantity, ingredient, note: "", countsAs: "", readAs: "" }
  })

export const part = (key: string, rows: string, more: Partial<WrittenPart> = {}): WrittenPart => ({
  ...{ key, name: key, lines: lines(rows), goesInto: "", staysPercent: "", ...more },
})

export const formula = (parts: WrittenPart[], more: Partial<WrittenFormula> = {}): WrittenFormula => ({
  ...{ parts, finishing: [], variants: [], pieces: "", pieceMass: "", pieceTolerance: "", ...more },
})

export const exactly = (value: number) => range(value, value)
export const range = (low: number, high: number) => ({ low: expect.closeTo(low, 9), high: expect.closeTo(high, 9) })
