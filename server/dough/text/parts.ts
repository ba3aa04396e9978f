import { isAround, isDough, isPreferment } from "./headings.ts"
import type { TextLine } from "./ingredient-lines.ts"

/** A part as listed. `into` and `stays` are where it says so itself. */
export type ListedPart = { name: string; into?: string; stays?: string; lines: TextLine[] }
/** A part with its place: `goesInto` is the index of the part it is used in, -1 for a final dough. `because` says why. */
export type PlacedPart = { name: string; goesInto: number; stays: string; because: string; lines: TextLine[] }

/**
 * Where each listed part goes: a levain, poolish or soaker into the dough, the dough nowhere; fillings, washes and toppings
 * stand outside of it, each line with the name of its list in its note. A list under no heading is the dough. Where no part
 * is called a dough, the last that is no preferment is. Never throws.
 */
export function placeListed(listed: ListedPart[]): { parts: PlacedPart[]; finishing: TextLine[] } {
  const used = listed.filter(({ name, lines }) => name || lines.length)
  const inDough = used.filter(({ name, into }) => into !== undefined || !isAround(name))
  const finishing = used.filter((part) => !inDough.includes(part)).flatMap(({ name, lines }) => lines.map(noted(name)))
  const final = finalOf(inDough)
  const parts = inDough.map((part) => placed(part, inDough, final))
  return { parts, finishing }
}

function finalOf(parts: ListedPart[]): number {
  const last = (is: (part: ListedPart) => boolean) => parts.findLastIndex(is)
  const free = (part: ListedPart) => part.into === undefined
  const called = last((part) => free(part) && /\b(?:final|main)\b/i.test(part.name) && isDough(part.name))
  if (called >= 0) return called
  const dough = last((part) => free(part) && isDough(part.name) && !isPreferment(part.name))
  if (dough >= 0) return dough
  const unnamed = last((part) => free(part) && part.name === "")
  if (unnamed >= 0) return unnamed
  const other = last((part) => free(part) && !isPreferment(part.name))
  return other >= 0 ? other : parts.length - 1
}

function placed({ name, into, stays = "", lines }: ListedPart, parts: ListedPart[], final: number): PlacedPart {
  const at = parts.findIndex((part) => part.lines === lines)
  const said = into === undefined ? -1 : parts.findIndex((part) => part.name === into)
  const goesInto = said >= 0 ? said : at === final ? -1 : final
  const because =
    said >= 0
      ? "it says so"
      : at === final
        ? "taken as the dough itself"
        : isPreferment(name)
          ? "by its name"
          : "as there is one dough"
  const others = parts.filter((part) => part.lines !== lines && part.name)
  return {
    name: name || "Final dough",
    goesInto: goesInto === at ? -1 : goesInto,
    stays,
    because,
    lines: lines.map(repeating(others)),
  }
}

/** "all of the levain", without an amount, is the part of that name, and its own words are the note. */
const repeating = (others: ListedPart[]) => (line: TextLine) => {
  const [, called = ""] =
    /^(?:all (?:of )?)?(?:the |your |ripe )*(\p{L}.*?)(?: from (?:above|before))?$/iu.exec(line.ingredient) ?? []
  const other = others.find(({ name }) => name.replace(/ \(.*$/, "").toLowerCase() === called.toLowerCase())
  if (!other || line.quantity || line.note) return line
  return { ...line, ingredient: other.name, note: line.ingredient === other.name ? "" : line.ingredient }
}

const noted = (name: string) => (line: TextLine) =>
  isPlain(name)
    ? line
    : { ...line, note: [line.note, name.charAt(0).toLowerCase() + name.slice(1)].filter(Boolean).join(", ") }
const isPlain = (name: string) => /^on and around it$/i.test(name)
