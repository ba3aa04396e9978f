import { mean } from "simple-statistics"

/**
 * How much each factor carries of the whole difference, by its Shapley value: what changing it adds, averaged over every
 * order in which the factors could have changed. `worthOf` gives the value when just these factors have changed; it is
 * asked once for each of the 2ⁿ sets and must answer the same each time. The shares add up to the value with all changed
 * less the value with none, in `worthOf`'s own unit. A factor that never makes a difference has exactly 0, two that
 * make the same difference have the same share.
 * Throws RangeError for no factors, for more than eight (256 sets), for a factor named twice or a value not finite.
 *
 * Source: Shapley 1953, A value for n-person games, in Contributions to the Theory of Games II, Princeton, p. 307.
 */
export function shapleyShares<Factor extends string>(
  factors: readonly Factor[],
  worthOf: (changed: ReadonlySet<Factor>) => number,
): Record<Factor, number> {
  const count = factors.length
  if (count < 1 || count > most) throw new RangeError(`a difference has 1 to ${most} factors, not ${count}`)
  if (new Set(factors).size < count) throw new RangeError(`a factor is named twice in ${factors.join(", ")}`)
  const sets = Array.from({ length: 2 ** count }, (_, bits) => factors.filter((_, at) => bits & (1 << at)))
  const values = sets.map((changed) => finite(worthOf(new Set(changed)), changed))
  const shares = factors.map((factor, at) => [factor, shareOf(1 << at, sets, values)])
  return Object.fromEntries(shares) as Record<Factor, number>
}
const most = 8

/** Every number of factors changed before this one is as likely, and of one number every set: a mean of means. */
function shareOf(bit: number, sets: string[][], values: number[]) {
  const added: number[][] = []
  for (const [bits, { length }] of sets.entries()) {
    if (bits & bit) continue
    added[length] ??= []
    added[length].push(values[bits | bit]! - values[bits]!)
  }
  return mean(added.map(mean))
}

function finite(value: number, changed: string[]) {
  if (Number.isFinite(value)) return value
  throw new RangeError(`with ${changed.join(", ") || "nothing"} changed the value is ${value}`)
}

/**
 * Shares out the difference between a plan and what was done, factor by factor. `planned` and `actual` hold the same
 * factors (hours or a temperature curve, share of levain, activity…), `progressOf` says how far a dough comes, as a
 * logarithm, with any mix of the two. `total` is actual less planned. Throws like shapleyShares, and RangeError for a
 * factor that only one side knows.
 */
export function shareOutDifference<Factors extends Record<string, unknown>>(
  { planned, actual }: { planned: Factors; actual: Factors },
  progressOf: (mixed: Factors) => number,
): { total: number; shares: Record<keyof Factors & string, number> } {
  const factors: (keyof Factors & string)[] = Object.keys(planned)
  const same = factors.length === Object.keys(actual).length && factors.every((factor) => factor in actual)
  if (!same) throw new RangeError("plan and bake must have the same factors")
  const mix = (changed: ReadonlySet<string>): Factors => {
    const mixed = { ...planned }
    for (const factor of factors) if (changed.has(factor)) mixed[factor] = actual[factor]
    return mixed
  }
  const shares = shapleyShares(factors, (changed) => progressOf(mix(changed)))
  return { total: progressOf(actual) - progressOf(planned), shares }
}
