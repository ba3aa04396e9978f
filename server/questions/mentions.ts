type Named = { key: string; name: string }
/** A run of words; with `stageKey` they are the name of that stage. */
export type Part = { text: string; stageKey: string | null }

/** What somebody wrote, cut where it names a stage as the formula writes it: "Bulk", but not "in bulk" or "Bulky". */
export function partsOf(words: string, stages: Named[]): Part[] {
  const named = new Map(stages.filter(({ name }) => name.trim()).map(({ key, name }) => [name, key]))
  if (named.size === 0) return [{ text: words, stageKey: null }]
  // the longer name first, or "Final proof" would be read as a final "proof"
  const names = [...named.keys()].toSorted((a, b) => b.length - a.length).map(literally)
  const anyName = new RegExp(`(?<![\\p{L}\\p{N}])(${names.join("|")})(?![\\p{L}\\p{N}])`, "gu")
  // split keeps what the group caught
  return words
    .split(anyName)
    .map((text) => ({ text, stageKey: named.get(text) ?? null }))
    .filter(({ text }) => text !== "")
}

/** The stage that somebody's words name first; null when they name none. */
export const stageIn = (words: string, stages: Named[]) =>
  partsOf(words, stages).find(({ stageKey }) => stageKey)?.stageKey ?? null

const literally = (text: string) => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&")
