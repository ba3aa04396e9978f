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
  const shares = shapleyOf(values)
  return Object.fromEntries(factors.map((factor, at) => [factor, shares[at]!])) as Record<Factor, number>
}
const most = 8

/**
 * As shapleyShares, from the values themselves: `values[bits]` with those factors changed whose bit is set, all 2ⁿ of them,
 * in the order of their bits. A bake's causes are shared out hundreds of times, once for everything that may be off.
 * Throws RangeError for a count of values that is not 2ⁿ, n from 1 to 8.
 */
export function shapleyOf(values: readonly number[]): number[] {
  const count = Math.log2(values.length)
  const weights = weightsFor[count]
  if (!weights) throw new RangeError(`${values.length} values are not those of 1 to ${most} factors`)
  return Array.from({ length: count }, (_, at) => {
    const bit = 1 << at
    let share = 0
    for (let bits = 0; bits < values.length; bits++)
      if (!(bits & bit)) share += weights[changedIn[bits]!]! * (values[bits | bit]! - values[bits]!)
    return share
  })
}

/** How many factors have changed in a set. */
const changedIn = Array.from({ length: 2 ** most }, (_, bits) => bits.toString(2).replaceAll("0", "").length)

/** For n factors and so many changed before this one: every number is as likely, and of one number every set. */
const weightsFor = Array.from({ length: most + 1 }, (_, n) =>
  n === 0 ? undefined : Array.from({ length: n }, (_, before) => 1 / (n * choose(n - 1, before))),
)

function choose(n: number, k: number): number {
  return k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k
}

function finite(value: number, changed: string[]) {
  if (Number.isFinite(value)) return value
  throw new RangeError(`with ${changed.join(", ") || "nothing"} changed the value is ${value}`)
}
