/** Something to mind: whole, and `short` for a printed sheet. */
export type Caution = {
  key: "raw" | "warm" | "cold-food" | "honey" | "lye" | "heat" | "allergens" | "sharing"
  title: string
  words: string
  short: string
}

export const listed = (names: string[]) => new Intl.ListFormat("en-GB", { type: "conjunction" }).format(names)
