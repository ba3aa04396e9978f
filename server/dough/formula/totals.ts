import { leftInParts, type Mix, of, type Sums, sumParts, sumWhole } from "./sums.ts"

type Maybe = number | undefined

/** Every figure of a formula at one set of exact amounts: masses in grams, the rest as shares. */
export type Totals = {
  grams: Maybe[]
  shares: Maybe[]
  sharesOfPart: Maybe[]
  parts: ReturnType<typeof partTotals>[]
  whole: ReturnType<typeof wholeTotals>
  basis: Basis
}

/** How the flour came about, for the sentences that explain it. `share` is what the flours in percent add up to. */
export type Basis = { from: "mass" | "dough" | "percent" | "nothing"; share: number; overfull: boolean }

/**
 * Works a formula out at exact amounts, NaN being one that is not known: it spreads by itself through every sum it has a
 * part in, and leaves as undefined.
 *
 * The total flour F solves F = flour by mass + (flour in percent)·F. When all flour is in percent, the scale comes from
 * `doughG`, the mass wanted, if every amount is known; without it there are ratios but no grams. Flours in percent that do
 * not add up to 1 are read as parts of their sum. A percentage is of what reaches the final dough: where something stays
 * in a jar, more is made.
 */
export function totalsAt(mix: Mix, amounts: number[], doughG: number): Totals {
  const left = leftInParts(mix, amounts)
  const reach = mix.places.map(({ chain }) => (chain ? chain.reduce((all, i) => all * left[i]!, 1) : Number.NaN))
  const { made, inGrams, basis } = solve(mix, reach, amounts, doughG)
  const grams = mix.lines.map(({ unit }, i) => (unit === "g" ? amounts[i]! : inGrams ? made[i]! : Number.NaN))

  const inMass = sumParts(mix, left, grams)
  const inProportion = inGrams ? inMass : sumParts(mix, left, made)
  const whole = sumWhole(mix, left, inProportion)
  return {
    grams: grams.map(known),
    shares: mix.lines.map(({ partIndex }, i) => ratio(of(made[i]!, reach[partIndex]!), whole.flour)),
    sharesOfPart: mix.lines.map(({ partIndex }, i) => ratio(made[i]!, inProportion[partIndex]!.freshFlour)),
    parts: mix.places.map((_, i) => partTotals(inMass[i]!, inProportion[i]!, left[i]!)),
    whole: wholeTotals(sumWhole(mix, left, inMass), whole),
    basis,
  }
}

function wholeTotals(inMass: Sums, whole: Sums) {
  return {
    dough: known(inMass.mass),
    flour: known(inMass.flour),
    water: known(inMass.water),
    wholeWater: known(inMass.allWater),
    formulaTotal: ratio(whole.mass, whole.flour),
    hydration: ratio(whole.water, whole.flour),
    wholeHydration: ratio(whole.allWater, whole.flour),
    salt: ratio(whole.salt, whole.flour),
    wholeSalt: ratio(whole.allSalt, whole.flour),
    sugar: ratio(whole.sugar, whole.flour),
    fat: ratio(whole.fat, whole.flour),
    flourProtein: ratio(whole.flourProtein, whole.plainFlour),
    prefermented: ratio(whole.prefermented, whole.flour),
    inoculation: ratio(whole.leaven, whole.flour),
  }
}

/** A part all by mass has its own ratios even where nothing gives the others a scale. */
function partTotals(inMass: Sums, inProportion: Sums, left: number) {
  return {
    made: known(inMass.mass),
    used: known(of(left, inMass.mass)),
    stays: known(1 - left),
    flour: known(inMass.flour),
    freshFlour: known(inMass.freshFlour),
    formulaTotal: either(inMass, inProportion, "mass", "freshFlour"),
    hydration: either(inMass, inProportion, "water", "flour"),
    wholeHydration: either(inMass, inProportion, "allWater", "flour"),
    inoculation: either(inMass, inProportion, "leaven", "freshFlour"),
  }
}

const either = (one: Sums, other: Sums, above: keyof Sums, below: keyof Sums) =>
  ratio(one[above], one[below]) ?? ratio(other[above], other[below])

/** The amount of each line as made: in grams or, when nothing gives the scale, as a share of all the flour. */
function solve(mix: Mix, reach: number[], amounts: number[], doughG: number) {
  const { whole, from, share, overfull } = scaleOf(mix, reach, amounts, doughG)
  const inGrams = from !== "percent"
  const made = mix.lines.map(({ unit, partIndex }, i) => {
    const amount = amounts[i]!
    if (unit === "g") return inGrams || amount === 0 ? amount : Number.NaN
    return of(amount, whole / reach[partIndex]!)
  })
  return { made, inGrams, basis: { from, share, overfull } }
}

/** All the flour in grams, or 1 where only ratios are known, or NaN; and what it was told from. */
function scaleOf({ lines }: Mix, reach: number[], amounts: number[], doughG: number): Basis & { whole: number } {
  const sum = { massG: 0, massFlour: 0, percent: 0, share: 0 }
  for (const [i, { unit, flour, partIndex }] of lines.entries()) {
    const reached = of(amounts[i]!, unit === "g" ? reach[partIndex]! : 1)
    sum[unit === "g" ? "massG" : "percent"] += reached
    sum[unit === "g" ? "massFlour" : "share"] += of(flour, reached)
  }
  const { share } = sum
  if (reach.some(Number.isNaN) || Number.isNaN(sum.massFlour) || Number.isNaN(share))
    return { from: "nothing", whole: Number.NaN, share, overfull: false }
  if (sum.massFlour > 0) {
    const overfull = share >= 1
    return { from: "mass", whole: overfull ? Number.NaN : sum.massFlour / (1 - share), share, overfull }
  }
  if (share === 0) return { from: "nothing", whole: Number.NaN, share, overfull: false }
  const whole = (doughG - sum.massG) / sum.percent
  return whole > 0
    ? { from: "dough", whole, share, overfull: false }
    : { from: "percent", whole: 1, share, overfull: whole <= 0 }
}

const known = (value: number): Maybe => (Number.isFinite(value) ? value : undefined)
const ratio = (a: number, b: number): Maybe => (b === 0 ? undefined : known(a / b))
