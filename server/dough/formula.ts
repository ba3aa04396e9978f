import type { CountsAs } from "./ingredients.ts"
import type { Quantity, Range } from "./quantity.ts"

/** A line as typed. `countsAs` "" is guessed from the name. */
export type WrittenLine = { quantity: string; ingredient: string; note: string; countsAs: CountsAs | "" }

/** `goesInto` is the key of the part this one is used in, "" for a final dough; `staysPercent` the share left in its jar, "" = 0. */
export type WrittenPart = { key: string; name: string; lines: WrittenLine[]; goesInto: string; staysPercent: string }

export type WrittenFormula = { parts: WrittenPart[]; pieces: string; pieceMass: string }

/** `share` is of the total flour. */
export type LineFigures = {
  quantity: Quantity
  g?: Range
  share?: Range
  countsAs: CountsAs
  guessed: boolean
  problem?: string
}

/** `hydration` is within the part. */
export type PartFigures = {
  key: string
  made?: Range
  used?: Range
  lines: LineFigures[]
  flour?: Range
  hydration?: Range
  problem?: string
}

/** Masses in grams; hydration, salt and prefermented as shares of the total flour. */
export type Figures = {
  parts: PartFigures[]
  dough?: Range
  flour?: Range
  water?: Range
  hydration?: Range
  salt?: Range
  prefermented?: Range
  pieces?: { count: number; eachG?: Range }
  cannot: string[]
}

export function workOut(formula: WrittenFormula): Figures {
  throw new Error(`not built yet: ${formula.parts.length} parts`)
}
