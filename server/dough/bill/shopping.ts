import type { Range } from "../amounts.ts"
import type { Figures, LineFigures } from "../formula/formula.ts"
import type { Known } from "../formula/lines.ts"
import type { WrittenFormula, WrittenLine } from "../formula/written.ts"
import { findIngredient } from "../ingredients/catalogue.ts"
import { wordsOf } from "../ingredients/words.ts"
import { type BillLine, billOf } from "./bill.ts"
import { isTapWater, thingOf } from "./things.ts"

/** One line of the formula that a thing is for: in the part of that name, undefined on or around the dough. */
export type For = { part?: string; written: WrittenLine; figures: LineFigures; g?: Range; asks?: string }

/** A thing to have, all that the formula asks of it added up, g; undefined where no amount of it is known. */
export type Thing = { id: string; name: string; g?: Range; fors: For[] }

/** `buy` in the order of need, `ready` is ripe starter, which nobody sells; `water` comes from the tap. */
export type Shopping = { buy: Thing[]; ready: Thing[]; water?: Thing }

/**
 * What has to be there for a formula as it was worked out or scaled: every line of every part and of the finishing, one thing
 * once. Never throws.
 */
export function shoppingOf(
  formula: Pick<WrittenFormula, "parts" | "finishing">,
  figures: Pick<Figures, "parts" | "finishing">,
  { own }: Pick<Known, "own"> = {},
): Shopping {
  const bill = billOf(formula, figures)
  const forOf = (part?: string) => (line: BillLine) => ({ part, ...line })
  const fors: For[] = [
    ...bill.parts.flatMap(({ written, lines }) => lines.map(forOf(written.name))),
    ...bill.finishing.map(forOf()),
  ]
  const isWater = ({ written, figures }: For) => isTapWater(written.ingredient, figures.countsAs, own)
  const isReady = (one: For) => one.figures.countsAs === "starter" && !isWater(one)
  const [water] = together(fors.filter(isWater), () => "water", own)
  const byName = ({ written }: For) => thingOf(written.ingredient, own)
  return {
    buy: together(
      fors.filter((one) => !isWater(one) && !isReady(one)),
      byName,
      own,
    ),
    ready: together(fors.filter(isReady), byName, own),
    ...(water ? { water } : {}),
  }
}

function together(fors: For[], idOf: (one: For) => string, own: Known["own"]): Thing[] {
  const byId = new Map<string, For[]>()
  for (const one of fors) byId.set(idOf(one), [...(byId.get(idOf(one)) ?? []), one])
  return [...byId].map(([id, theirs]) => ({ id, name: nameOf(theirs, own), g: sumOf(theirs), fors: theirs }))
}

/** As the formula calls it, where it calls it one name; else as the catalogue does. */
function nameOf(fors: For[], own: Known["own"]): string {
  const names = fors.map(({ written }) => written.ingredient.trim())
  const alike = new Set(names.map((name) => wordsOf(name).join(" "))).size === 1
  const known = alike ? undefined : findIngredient(names[0]!, own)?.name
  return known ?? (names[0] || "Something without a name")
}

function sumOf(fors: For[]): Range | undefined {
  return fors.reduce<Range | undefined>((sum, { g }) => {
    if (!g) return sum
    return { low: (sum?.low ?? 0) + g.low, high: (sum?.high ?? 0) + g.high }
  }, undefined)
}
