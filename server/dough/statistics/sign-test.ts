/** How many values lie above 0, below it and on it, and the chance of so uneven a count, either way, were both sides alike. */
export type Signs = { above: number; below: number; equal: number; p: number }

/**
 * The sign test: whether values lie on one side of 0 more often than chance would have it, by exact binomial counts. Values
 * of 0 are left out. p is 1 where none are left. Throws RangeError for a value that is no number.
 *
 * Source: Dixon & Mood 1946, J Am Stat Assoc 41:557, from memory; worked examples in tests/published/class-picture.test.ts.
 */
export function signTest(values: number[]): Signs {
  if (values.some(Number.isNaN)) throw new RangeError("a value is not a number")
  const above = values.filter((value) => value > 0).length
  const below = values.filter((value) => value < 0).length
  const tails = 2 * atMost(Math.min(above, below), above + below)
  return { above, below, equal: values.length - above - below, p: Math.min(1, tails) }
}

/** The chance of at most so many heads of so many coins. */
function atMost(heads: number, coins: number) {
  let [term, sum] = [2 ** -coins, 0]
  for (let k = 0; k <= heads; k++) {
    sum += term
    term *= (coins - k) / (k + 1)
  }
  return sum
}
