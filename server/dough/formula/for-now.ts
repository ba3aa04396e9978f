import type { Ingredient } from "../ingredients/ingredient.ts"
import { readQuantity as readOld } from "../quantity/old.ts"
import type { Measures, Quantity } from "../quantity/reading.ts"

type About = { ingredient?: Ingredient; name?: string; measures?: Measures }

export function readQuantity(text: string, _about: About = {}): Quantity {
  const old = readOld(text)
  if (old.kind === "blank") return old
  if (old.kind === "unread") return { kind: "asks", question: old.why, choices: [] }
  return { ...old, assumptions: [], choices: [] }
}
