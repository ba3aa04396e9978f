/** The respects in which bakes can differ before they are baked; they stand in addresses. */
export const traitKeys = [
  ...(["day", "revision", "variant", "flour", "levain", "kitchen", "dough"] as const),
  ...(["bulk", "proof", "wait", "vessel", "oven", "changes"] as const),
]
export type TraitKey = (typeof traitKeys)[number]

/**
 * What one bake has in one respect: in words, its place among others, and, where many values are better taken together, the
 * band it is in. `note` is how well it is known, or how far it is from the plan; `said` how it is said in a sentence, ""
 * where it is not worth one; `quiet` where there is nothing to be told.
 */
export type Value = {
  words: string
  order: number | string
  note?: string
  said?: string
  quiet?: boolean
  band?: Band
}
/** `key` stands in addresses. */
export type Band = { key: string; words: string; order: number | string }
export type Values = { [Key in TraitKey]?: Value }

/** The band of a value; one of its own where it has no other, and one for all that is not known. */
export const bandOf = (value: Value | undefined): Band => {
  if (!value) return unknown
  return value.band ?? { key: value.words.slice(0, longest), words: value.words, order: value.order }
}
export const unknown: Band = { key: "unknown", words: "not known", order: "" }
// As much of a value as an address brings back, see typedIn.
const longest = 80

export const compare = (a: number | string, b: number | string) =>
  typeof a === "number" && typeof b === "number" ? a - b : String(a).localeCompare(String(b), "en")
