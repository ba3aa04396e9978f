import { findIngredient } from "../ingredients/catalogue.ts"
import { type CountsAs, guessCountsAs } from "../ingredients/counts-as.ts"
import type { Known } from "./lines.ts"
import type { Typed } from "./weighed-out.ts"

/** Of an amount that cannot be read, which figures do without it, or, of what came out, are with all of it. */
export function unweighed({ quantity }: Typed, name: string, { own }: Known, how: "without it" | "with all of it") {
  const counts = findIngredient(name, own)?.countsAs ?? guessCountsAs(name)
  return `“${quantity}” of ${name} cannot be weighed: ${reckoned[counts]} reckoned ${how}.`
}
const reckoned: Record<CountsAs, string> = {
  flour: "the dough, its flour and every percentage are",
  starter: "the dough, its flour and every percentage are",
  water: "the dough and its hydration are",
  salt: "the dough and its salt are",
  leaven: "the dough is",
  other: "the dough is",
}

/** Of more taken out than there is. */
export const tooMuch = (name: string) => `More ${name} is taken out than there is, so it is not counted.`

/** Of an amount that nothing in the formula can be set against. */
export const noMasses = ({ quantity }: Typed) =>
  `The formula gives no masses that “${quantity}” could be set against, so it is not counted.`

/** Of a line whose own amount nobody can read. */
export const unreadLine = (name: string) =>
  `How much ${name} the formula asks for cannot be read, so what was taken of it is not counted.`
