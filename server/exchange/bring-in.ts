import type { Measures } from "../dough/quantity/reading.ts"
import { readText } from "../dough/text/read-text.ts"
import { type Brought, broughtFrom } from "./brought.ts"
import { delimiterOf, readTable } from "./csv-in.ts"
import { storable } from "./plain.ts"
import { readRecipe } from "./recipe-in.ts"
import { dataBlocksIn, type Node, recipesIn, TooDeep } from "./recipes-in.ts"

/** What may be pasted, and what is kept of a file, in letters. Our own limit. */
export const mostPasted = 100_000

type Asked = { measures: Measures; which?: number }

/**
 * A pasted text or a file, whatever it is: JSON-LD, a saved page with it, a table, or just words. What keeps it from being
 * read is a sentence. Nothing is ever fetched.
 */
export function bringIn(given: string, { measures, which = 0 }: Asked): Brought | { problem: string } {
  const text = storable(given)
    .replace(/^\ufeff/, "")
    .trim()
  if (!text) return { problem: "Paste a formula, or choose a file." }
  const found = recipesOf(text)
  if (found && "problem" in found) return found
  if (found) return fromRecipes(found.recipes, { measures, which })
  if (text.length > mostPasted) return { problem: tooMuch }
  const alone = { source: text, recipes: [], which: 0 }
  const delimiter = delimiterOf(text)
  if (delimiter) {
    const table = readTable(text, delimiter, measures)
    return "problem" in table ? table : sized({ ...table, ...alone })
  }
  const read = readText(text)
  const left = read.told.filter(({ is }) => is === "left").map((line) => line.text)
  return sized({ kind: "text", ...broughtFrom(read, measures), left, remarks: [], ...alone })
}

const tooMuch = `That is more than ${mostPasted.toLocaleString("en-GB")} letters. Leave out what is not the formula.`

/** The recipes in JSON or in a page; undefined for what is neither. */
function recipesOf(text: string): { recipes: Node[] } | { problem: string } | undefined {
  const isPage = /^<|<script\b[^>]*ld\+json/i.test(text)
  if (!isPage && !/^[{[]/.test(text)) return undefined
  try {
    const documents = isPage ? dataBlocksIn(text).flatMap(parsedOrNothing) : [JSON.parse(text)]
    const recipes = recipesIn(documents)
    if (recipes.length) return { recipes }
    return {
      problem: isPage
        ? "There is no recipe in this page that programs can read. Copy the words of it, and paste those."
        : "There is no recipe of schema.org in this file.",
    }
  } catch (error) {
    if (error instanceof TooDeep) return { problem: "That is too much, or nested too deeply, to be a recipe." }
    if (!(error instanceof SyntaxError)) throw error
    // "[Levain]" may well be the first line of a text
    return text.startsWith("[") ? undefined : { problem: `It begins like JSON, but is none: ${error.message}.` }
  }
}

/** A page may have broken blocks beside good ones. */
function parsedOrNothing(block: string): unknown[] {
  try {
    return [
      JSON.parse(
        block.replace(/^\s*(?:<!--|\/\*\s*<!\[CDATA\[\s*\*\/|<!\[CDATA\[)|(?:-->|\/\*\s*\]\]>\s*\*\/|\]\]>)\s*$/g, ""),
      ),
    ]
  } catch (error) {
    if (error instanceof SyntaxError) return []
    throw error
  }
}

// What pages hang onto a recipe that says nothing of how it is made, and may be long.
const around = ["review", "comment", "video", "image", "interactionStatistic", "associatedMedia", "thumbnailUrl"]

function fromRecipes(found: Node[], { measures, which }: Required<Asked>): Brought | { problem: string } {
  const isLong = JSON.stringify(found).length > mostPasted
  const recipes = isLong ? found.map(withoutAround) : found
  const source = JSON.stringify(recipes.length === 1 ? recipes[0] : recipes, null, 1)
  if (source.length > mostPasted) return { problem: tooMuch }
  const at = recipes[which] ? which : 0
  const read = readRecipe(recipes[at]!, measures)
  const names = recipes.map(({ name }, index) => (typeof name === "string" ? name : `Recipe ${index + 1}`))
  const remarks = isLong ? ["Its pictures, films and comments were too much, and were left out."] : []
  return sized({ ...read, remarks: [...read.remarks, ...remarks], source, recipes: names, which: at })
}

const withoutAround = (recipe: Node): Node =>
  Object.fromEntries(Object.entries(recipe).filter(([name]) => !around.includes(name)))

// More than any formula has. Our own limits.
const [mostParts, mostLines, mostStages] = [30, 300, 100]

function sized(brought: Brought): Brought | { problem: string } {
  const { parts, finishing, stages } = brought.content
  const lines = parts.reduce((sum, part) => sum + part.lines.length, finishing.length)
  if (parts.length > mostParts || lines > mostLines || stages.length > mostStages)
    return {
      problem: `That is ${lines} lines and ${stages.length} stages, more than one formula has. Bring in one at a time.`,
    }
  return brought
}
