import type { Range } from "../amounts.ts"

export type Kneading = "hand" | "mixer" | "processor"

/**
 * How much kneading warms a dough, °C: a quarter of the friction factors 5, 20 and 25 °F for four temperatures (Cook's
 * Illustrated, “Precise water temperature for the perfect loaf”). `spreadC` is how far a dough may lie from that, our own
 * guess. To be replaced by what an earlier dough of one's own says.
 */
export const kneadings: Record<Kneading, { riseC: number; spreadC: number }> = {
  hand: { riseC: (5 / 4) * (5 / 9), spreadC: 1 },
  mixer: { riseC: (20 / 4) * (5 / 9), spreadC: 1.5 },
  processor: { riseC: (25 / 4) * (5 / 9), spreadC: 1.5 },
}

/** How far a dough may lie from one reckoned with its own maker's earlier rise, °C. Our own guess. */
export const earlierSpreadC = 0.7

/** What a mixer adds to a dough in a minute, °C: French encyclopaedia article “Température de base”, seen as a copy. */
export const mixerPerMinuteC: Range = { low: 0.3, high: 0.5 }
