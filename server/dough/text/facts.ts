import { measureNames } from "../quantity/measures.ts"
import type { Measures } from "../quantity/reading.ts"
import { undecorated } from "./lines.ts"

/** What a text says of the whole: how many pieces of what mass, the pan, whose cups. As it was written; "" for nothing. */
export type Makes = { pieces: string; pieceMass: string; pieceTolerance: string; pan: string; measures?: Measures }
export const nothingSaid: Makes = { pieces: "", pieceMass: "", pieceTolerance: "", pan: "" }

/** What a line such as "Makes 2 loaves of 900 g, ± 10 g" or "Pan: two tins" says; undefined for any other line. */
export function factIn(line: string): Partial<Makes> | undefined {
  const plain = undecorated(line)
  const [, pan] = /^(?:pan|tin|basket|mou?ld|pan or basket)s?: (\S.*)$/i.exec(plain) ?? []
  if (pan) return { pan }
  const [, cups = ""] = /^cups and spoons(?: in it)?(?: are)?: ?(.+)$/i.exec(plain) ?? []
  const measures = Object.entries(measureNames).find(([, name]) => name.toLowerCase() === cups.toLowerCase())?.[0]
  if (measures) return { measures: measures as Measures }
  const [, said] =
    /^(?:makes|yields?|gives|quantity|for(?= \d))\b:? ?(?:about |approximately |approx\.? )?(\d.*)$/i.exec(plain) ?? []
  return said === undefined ? undefined : piecesIn(said)
}

/** "2 loaves of 900 g, ± 10 g", "12 rolls", "10–12 buns"; undefined where servings are counted, or nothing is. */
export function piecesIn(text: string): Partial<Makes> | undefined {
  const [, count, rest = ""] =
    /^\s*(\d{1,4}(?: ?(?:-|–|to) ?\d{1,4})?)\b(?!\s*(?:g|kg|oz|lb|%|°|min|h)\b)(.*)$/su.exec(text) ?? []
  if (!count || /serving|portion|people|person|slice/i.test(rest)) return undefined
  const [, tolerance = ""] = /(±\s*[\d.,]+\s*(?:g|oz|%)?)/u.exec(rest) ?? []
  const [, mass = ""] =
    /\b(?:of|at|à|x|×|,|\()\s*(\d[\d.,]*\s*(?:g|kg|oz|lb)\b)/iu.exec(rest.replace(tolerance, "")) ?? []
  return { pieces: count, ...(mass && { pieceMass: mass }), ...(tolerance && { pieceTolerance: tolerance }) }
}

/** Whether a line names where something comes from, who wrote it or under which licence. */
export function isCredit(line: string, isAtStart: boolean): boolean {
  const plain = undecorated(line)
  if (plain.length > 400) return false
  if (/^(?:<?https?:\/\/|www\.)\S+$/i.test(plain)) return true
  if (
    /^(?:source|credits?|adapted from|recipe (?:by|from|courtesy)|licen[cs]ed?|copyright|©|\(c\)|from https?:|first published|found (?:at|on))/i.test(
      plain,
    )
  )
    return true
  return isAtStart && plain.length <= 120 && /^(?:[Bb]y|[Ff]rom|[Aa]uthor:?) \p{Lu}/u.test(plain)
}
