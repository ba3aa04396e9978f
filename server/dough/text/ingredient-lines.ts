import { findIngredient } from "../ingredients/catalogue.ts"
import { type SplitLine, splitLine } from "../quantity/split-line.ts"
import { durationsIn } from "./durations.ts"
import { kindsIn } from "./kinds.ts"
import { unlisted } from "./lines.ts"

/** A line of a formula in the fields of a form, beside the line as it came. */
export type TextLine = SplitLine & { text: string }

const measured =
  /\d\s*(?:g|gr|grams?|kg|ml|cl|dl|l|oz|ounces?|lbs?|pounds?|cups?|c|tbsps?|tbs|tsps?|tablespoons?|teaspoons?|pints?|quarts?|sticks?|packets?|pkg|%)(?!\p{Ll})|[½¼¾⅓⅔⅛]\s*\p{L}|\b(?:pinch|dash|handful|knob|splash|to taste)\b/iu

/** Whether a line reads as an ingredient with its amount, wherever it stands: "500 g flour", "2 eggs", "Salt: 10 g". */
export function isIngredient(line: string): boolean {
  const text = unlisted(line)
  if (text.length > 160 || /[.!?]$/.test(text.replace(/\b(?:tsp|tbsp|pkg|oz|lb|lbs|g|c)\.$/i, ""))) return false
  const { quantity, ingredient } = splitLine(text)
  if (!quantity || !/[\p{N}]|pinch|dash|handful|knob|splash|taste|dozen|half|\bone\b|\btwo\b|\ban?\b/iu.test(quantity))
    return false
  if (opensWithWork(text)) return false
  if (measured.test(text)) return !(durationsIn(text).length && !/\d\s*(?:g|kg|oz|lb)\b/i.test(text))
  return (
    !durationsIn(text).length &&
    (findIngredient(ingredient) !== undefined || /^\d/.test(text)) &&
    text.split(" ").length <= 8
  )
}

/** "Mix 500 g flour with the water": an instruction that names amounts. */
const opensWithWork = (text: string) => {
  const [first] = kindsIn(text)
  return (
    first !== undefined &&
    first.start === 0 &&
    !/^(?:cream|build|rising|rested|soaked|ripe|baking|cool|chilled|risen|beaten|blend|mixed|mix (?:of|for)|bulk)\b/i.test(
      text,
    )
  )
}

/** Whether a line in a list of ingredients is one without an amount: "Salt", "flour for dusting". */
export const isUnmeasured = (line: string) => {
  const text = unlisted(line)
  return text.length <= 80 && !/[.!?]$/.test(text) && !opensWithWork(text) && !/https?:|www\./i.test(text)
}

/** A line in its fields; what is in a table's cells is taken as one line. Nothing of it is lost but its mark of a list. */
export function lineOf(text: string): TextLine {
  const plain = unlisted(text.trim())
    .replace(/^\|\s*|\s*\|$/g, "")
    .replace(/\s*[|\t]\s*/g, " ")
  const split = splitLine(plain)
  // "a few sprigs of rosemary" has no amount to take apart
  if (/^(?:an?|the|some)$/i.test(split.ingredient))
    return { quantity: "", ingredient: plain, note: "", text: text.trim() }
  return { ...split, text: text.trim() }
}
