import { entries, type TermKey } from "./words.ts"

/** Where a word is explained. */
const placeOfTerm = (key: TermKey) => `/glossary#${key}`

/**
 * A word as a link to what it means, for any view: `<%~ it.term("bulk") %>`, or `<%~ it.term("bulk", "first rise") %>` with
 * the label's own words, which may be plain text only. A real link, so not inside another one, nor in a button or a label.
 * Throws RangeError for a word that is not in the glossary.
 */
export function term(key: TermKey, words?: string): string {
  const shown = words ?? termsByKey.get(key)
  if (shown === undefined || !termsByKey.has(key)) throw new RangeError(`“${key}” is not in the glossary`)
  return `<a class="term" href="${placeOfTerm(key)}">${escaped(shown)}</a>`
}

/** A sentence in which the first of some words links to what it means; as it is where they do not stand in it. */
export function termIn(key: TermKey, sentence: string, words: string): string {
  const at = sentence.indexOf(words)
  if (at < 0) return escaped(sentence)
  return escaped(sentence.slice(0, at)) + term(key, words) + escaped(sentence.slice(at + words.length))
}

const termsByKey = new Map<string, string>(entries.map(([key, entry]) => [key, entry.term]))

const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => signs[sign]!)
const signs: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" }

/** A name that somebody gave a part: linked where it is just one of the glossary's names, else as it is. */
export function termFor(name: string): string {
  const key = keysByName.get(name.trim().toLowerCase())
  return key ? term(key, name) : escaped(name)
}
const keysByName = new Map(
  entries.flatMap(([key, entry]) => [entry.term, ...(entry.also ?? [])].map((name) => [name.toLowerCase(), key])),
)

/** The word for a kind of stage, where there is one. */
export const stageTerms: Record<string, TermKey> = {
  ...{ bulk: "bulk", fold: "fold", divide: "divide", proof: "proof", retard: "retard" },
}
