import type { Range, Share } from "../amounts.ts"

/**
 * Which cup, spoon, fluid ounce and pint somebody means: US customary (cup 236.588 ml), the round figures of US food
 * labels (240/15/5 ml), metric (cup 250, tbsp 15, tsp 5 ml), or imperial (pint 568.261 ml, cup half a pint).
 */
export type Measures = "us" | "us-label" | "metric" | "imperial"

/** An unambiguous way to write the amount; read in place of what was typed, it asks nothing. */
export type Choice = { readAs: string; label: string }

/**
 * What an amount says. Understood is `mass` or `percent` without assumptions; with assumptions, each one is a sentence to
 * show beside the line, and `choices` are other readings to take instead; `asks` is a question to the person.
 */
export type Quantity =
  | { kind: "blank" }
  | ({ kind: "mass"; g: Range } & Understood)
  | ({ kind: "percent"; share: Range<Share> } & Understood)
  | { kind: "asks"; question: string; choices: Choice[] }

export type Understood = {
  /** What the grams rest on, each a sentence: "1 cup of bread flour weighs 137 g (USDA SR28)". */
  assumptions: string[]
  choices: Choice[]
  /** "about", "~": meant loosely. */
  about?: true
  /** "at least": no upper end was given; the figures stand for the lower one. */
  openEnded?: true
  /** A percentage printed beside a mass: "110 g (15.9 %)". */
  printed?: Range<Share>
}
