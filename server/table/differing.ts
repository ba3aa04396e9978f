import type { Laid } from "./laid.ts"
import type { Trait } from "./traits.ts"

/**
 * What bakes differ in, and in sentences what is the same for all: a respect differs when two of them have it otherwise;
 * what is not known of some is no difference.
 */
export function differingIn(items: Laid[], traits: Trait[]) {
  const found = traits.map((trait) => {
    const known = items.flatMap(({ values }) => values[trait.key] ?? [])
    return { trait, known, distinct: new Set(known.map(({ words }) => words)) }
  })
  const same = found.filter(({ distinct }) => distinct.size === 1)
  return {
    differing: found.filter(({ distinct }) => distinct.size > 1).map(({ trait }) => trait),
    same: same.flatMap(({ trait, known }) => {
      const words = known[0]!.said ?? trait.same(known[0]!.words)
      if (!words) return []
      return known.length === items.length ? words : `${words}, as far as is known`
    }),
    unknown: found
      .filter(({ trait, distinct }) => distinct.size === 0 && trait.key in missed)
      .map(({ trait }) => missed[trait.key as keyof typeof missed]),
  }
}

/** What is missed where nobody said it. */
const missed = {
  kitchen: "the kitchen’s temperature",
  dough: "the dough’s temperature",
  vessel: "what it was baked in",
}
