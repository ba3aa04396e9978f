import { bread } from "./words-of-bread.ts"
import { dough } from "./words-of-dough.ts"
import { figures } from "./words-of-figures.ts"
import { leaven } from "./words-of-leaven.ts"

/** A word as it is used here: `also` are its other names, `words` what it means, `see` related entries by their keys. */
export type Entry = { term: string; also?: string[]; words: string; see?: string[] }

/** Every word by its key, which is its anchor on the page, in groups and in the order in which somebody would read them. */
export const glossary = {
  "What raises it": leaven,
  "The day of a dough": dough,
  "Figures and temperatures": figures,
  "The bread": bread,
} satisfies Record<string, Record<string, Entry>>

export type TermKey = keyof typeof leaven | keyof typeof dough | keyof typeof figures | keyof typeof bread

export const entries: [TermKey, Entry][] = Object.values(glossary).flatMap(
  (group) => Object.entries(group) as [TermKey, Entry][],
)
