import type { CountsAs } from "../ingredients/counts-as.ts"

/**
 * A line as typed. `readAs` is the wording chosen for an amount that could be read in two ways, read in place of
 * `quantity`; "" reads what was typed. `countsAs` "" is taken from the ingredient.
 */
export type WrittenLine = {
  quantity: string
  ingredient: string
  note: string
  countsAs: CountsAs | ""
  readAs: string
}

/**
 * `goesInto` is the key of the part this one is used in, "" for a final dough. `staysPercent` is what is left in its jar:
 * "10", "10 %" or, where every line of the part is by mass, "45 g"; "" is nothing.
 */
export type WrittenPart = { key: string; name: string; lines: WrittenLine[]; goesInto: string; staysPercent: string }

/**
 * In the part with that key, `lines` take the place of the line whose ingredient reads `insteadOf`; none of them leaves it
 * out. `insteadOf` "" is the whole part, whose lines then stand in the part it went into.
 */
export type Swap = { part: string; insteadOf: string; lines: WrittenLine[] }

/** Another way to make the formula that its writer offers: "all bread flour", "with yeast instead of levain". */
export type Variant = { key: string; name: string; about: string; swaps: Swap[]; times: StageTime[] }
/** How long a stage takes in a variant, in minutes; 0 leaves it out. */
export type StageTime = { stageKey: string; lowMin: number; highMin: number }

/**
 * `finishing` is what goes on or around the dough: wash, dusting, topping, grease. `pieceTolerance` is how far a piece may
 * be off its mass, "± 5 g" or "3 %", or "".
 */
export type WrittenFormula = {
  parts: WrittenPart[]
  finishing: WrittenLine[]
  variants: Variant[]
  pieces: string
  pieceMass: string
  pieceTolerance: string
}
