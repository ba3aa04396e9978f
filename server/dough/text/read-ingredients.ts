import { headingIn } from "./headings.ts"
import { isIngredient, lineOf, type TextLine } from "./ingredient-lines.ts"
import { undecorated } from "./lines.ts"
import { type ListedPart, type PlacedPart, placeListed } from "./parts.ts"

// What an amount, and an ingredient or a note, may hold in a formula.
const [mostOfAmount, mostOfWords] = [120, 200]

/**
 * Reads lines that are known to be a list of ingredients, in which only headings such as "For the levain:" are none; `left`
 * are those too long for any line. Never throws.
 */
export function readIngredients(lines: string[]): { parts: PlacedPart[]; finishing: TextLine[]; left: string[] } {
  const left: string[] = []
  const listed: ListedPart[] = []
  const used = lines.map((line) => line.trim()).filter(Boolean)
  for (const [index, line] of used.entries()) {
    const heading = headingIn(line)
    const next = used[index + 1]
    if (heading?.opens === "part" && !isIngredient(line) && (heading.isSure || isTitled(line, next)))
      listed.push({ name: heading.name, into: heading.into, stays: heading.stays, lines: [] })
    else if (heading && heading.opens !== "part") continue
    else if (!fits(lineOf(line))) left.push(line)
    else {
      if (!listed.length) listed.push({ name: "", lines: [] })
      listed.at(-1)!.lines.push(lineOf(line))
    }
  }
  return { ...placeListed(listed), left }
}

/** "Final dough", "LEVAIN" over a line with an amount; "levain" in small letters is an ingredient. */
const isTitled = (line: string, next: string | undefined) =>
  /^\p{Lu}/u.test(undecorated(line)) && next !== undefined && isIngredient(next)

/** Whether the fields of a line have room in a formula. */
const fits = ({ quantity, ingredient, note }: TextLine) =>
  quantity.length <= mostOfAmount && ingredient.length <= mostOfWords && note.length <= mostOfWords
