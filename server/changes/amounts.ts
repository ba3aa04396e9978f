import type { Amount, Typed } from "../dough/formula/weighed-out.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { gramsPerOunce } from "../dough/quantity/measures.ts"
import { readQuantity } from "../dough/quantity/read.ts"
import type { Choice, Measures } from "../dough/quantity/reading.ts"

/**
 * What an amount of `name` is read with: the formula's measures, the reader's own unit for a bare number, and `present`,
 * what there is of it, for one that is taken out.
 */
export type Reading = {
  name: string
  measures: Measures
  own: readonly Ingredient[]
  massUnit: "g" | "oz"
  present?: Amount
}
export type Asked = { question: string; choices: Choice[] }

/** Said in place of a choice: nobody can tell any more, so the words are kept and nothing is weighed. */
const asWords = "words"

/**
 * An amount as typed with the grams it is taken for, or what has to be asked about it. `taken` is the wording that was
 * chosen before. What cannot be read at all is kept as words, without grams.
 */
export function readAmount(text: string, taken: string, reading: Reading): Typed | Asked {
  const quantity = text.trim()
  if (quantity === "") return { quantity, g: null }
  if (taken === asWords) return { quantity, g: null }
  const bare = bareG(quantity, reading)
  if (bare) return bare
  const share = shareOf(taken || quantity, reading)
  if (share) return { quantity, g: share }
  // what was added is what this form is about
  const read = quantityOf((taken || quantity).replace(/^\+\s*/, ""), reading)
  if (read.kind === "asks") {
    const { question, choices } = read
    return choices.length ? { question, choices } : { quantity, g: null }
  }
  const twoWays = taken ? undefined : percentOfWhat(quantity, reading)
  if (twoWays) return twoWays
  if (read.kind !== "mass" || read.g.low !== read.g.high) return { quantity, g: null }
  return read.g.low === 0 ? { question: "Give an amount above 0.", choices: [] } : { quantity, g: read.g.low }
}

const quantityOf = (text: string, { name, measures, own }: Reading) =>
  readQuantity(text, { name, measures, ingredient: findIngredient(name, own) })

/** What the grams of an amount rest on, in sentences; none where another wording was chosen. */
export function restsOn({ quantity, g }: Typed, reading: Reading): string[] {
  const read = quantityOf(quantity.replace(/^\+\s*/, ""), reading)
  return read.kind === "mass" && read.g.low === g ? read.assumptions : []
}

/** A number alone is in the reader's own unit, by weight. */
function bareG(quantity: string, { massUnit }: Reading): Typed | undefined {
  if (!/^\+?\s*\d{1,6}(?:[.,]\d{1,2})?$/.test(quantity)) return undefined
  const value = Number(quantity.replace(",", ".").replace("+", ""))
  const g = massUnit === "oz" ? value * gramsPerOunce : value
  return g > 0 ? { quantity: `${quantity} ${massUnit}`, g } : undefined
}

const parts: Record<string, number> = {
  ...{ half: 1 / 2, "1/2": 1 / 2, "½": 1 / 2 },
  ...{ third: 1 / 3, "1/3": 1 / 3, "⅓": 1 / 3, "two thirds": 2 / 3, "2/3": 2 / 3, "⅔": 2 / 3 },
  ...{ quarter: 1 / 4, "1/4": 1 / 4, "¼": 1 / 4, "three quarters": 3 / 4, "3/4": 3 / 4, "¾": 3 / 4 },
}

/** "half", "a third of it", "50 % of it": of what there is. */
function shareOf(text: string, { present }: Reading): number | undefined {
  if (present?.unit !== "g" || present.low !== present.high) return undefined
  const [, words = "", percent] =
    /^(?:about )?(?:an? )?(?:([\p{L}\d/½⅓⅔¼¾ ]+?)|(\d{1,2}(?:[.,]\d+)?) ?%)(?: of (?:it|the .+)| the .+)?$/iu.exec(
      text,
    ) ?? []
  if (percent !== undefined)
    return / of /.test(text) ? (present.low * Number(percent.replace(",", "."))) / 100 : undefined
  const share = parts[words.toLowerCase()]
  return share && present.low * share
}

/** A percentage of something that is taken out may be of it or of the flour. */
function percentOfWhat(quantity: string, { present, name }: Reading): Asked | undefined {
  const [, percent] = /^(\d{1,2}(?:[.,]\d+)?) ?%$/.exec(quantity) ?? []
  if (!present || !percent) return undefined
  return {
    question: `${percent} % of the ${name}, or of the flour?`,
    choices: [
      { readAs: `${percent} % of it`, label: `of the ${name}` },
      { readAs: `${percent} %`, label: "of the flour" },
    ],
  }
}
