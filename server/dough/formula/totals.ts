import type { CountsAs } from "../ingredients/counts-as.ts"
import type { Place } from "./parts.ts"

/** A line whose amount is one number: grams as made, or a share of the total flour; undefined when it is not known. */
export type ExactLine = { partIndex: number; countsAs: CountsAs; unit: "g" | "share"; amount?: number }

type Maybe = number | undefined

/** Every figure of a formula at one set of exact amounts. Masses are in grams, `shares` and the last four of the total flour. */
export type Totals = {
  grams: Maybe[]
  shares: Maybe[]
  parts: { made: Maybe; used: Maybe; flour: Maybe; hydration: Maybe }[]
  dough: Maybe
  flour: Maybe
  water: Maybe
  hydration: Maybe
  salt: Maybe
  prefermented: Maybe
  /** How the flour came about, for the sentences that explain it. `share` is what the flours in percent add up to. */
  basis: { from: "mass" | "dough" | "percent" | "nothing"; share: number; overfull: boolean }
}

// A ripe starter at 100 % hydration is half flour, half water by mass: common practice, no published source.
const flourIn: Record<CountsAs, number> = { flour: 1, starter: 0.5, water: 0, salt: 0, leaven: 0, other: 0 }
const waterIn: Record<CountsAs, number> = { flour: 0, starter: 0.5, water: 1, salt: 0, leaven: 0, other: 0 }

/**
 * Works a formula out at exact amounts. The total flour F solves F = flour by mass + (flour in percent)·F. When all
 * flour is in percent, the scale comes from `doughG`, the mass wanted, if every amount is known; without it there are
 * ratios but no grams. Flours in percent that do not add up to 1 are read as parts of their sum.
 * A percentage is of what reaches the final dough: where something stays in a jar, more is made.
 */
export function totalsAt(lines: ExactLine[], places: Place[], doughG?: number): Totals {
  const { amounts, inGrams, basis } = solve(lines, places, doughG)
  const grams = lines.map((line, i) => (line.unit === "g" ? line.amount : inGrams ? amounts[i] : undefined))
  const reachOf = (line: ExactLine) => places[line.partIndex]?.reach

  const total = (values: Maybe[], shareOf: (line: ExactLine) => number) =>
    sum(lines.map((line, i) => times(values[i], shareOf(line), reachOf(line))))
  const flourShare = ({ countsAs }: ExactLine) => flourIn[countsAs]
  const waterShare = ({ countsAs }: ExactLine) => waterIn[countsAs]
  const saltShare = ({ countsAs }: ExactLine) => (countsAs === "salt" ? 1 : 0)
  const prefermented = prefermentedParts(lines, places)
  const prefermentedShare = (line: ExactLine) =>
    line.countsAs === "starter" || prefermented[line.partIndex] ? flourShare(line) : 0

  const inPart = (index: number, values: Maybe[], shareOf: (line: ExactLine) => number): Maybe => {
    const at = places[index]
    if (!at || at.circular) return undefined
    const own = lines.map((line, i) => (line.partIndex === index ? times(values[i], shareOf(line)) : 0))
    const added = at.childIndexes.map((child) => times(inPart(child, values, shareOf), left(places[child])))
    return sum([...own, ...added])
  }
  const hydrationIn = (index: number, values: Maybe[]) =>
    ratio(inPart(index, values, waterShare), inPart(index, values, flourShare))

  const flour = total(amounts, flourShare)
  const everything = () => 1
  return {
    grams,
    shares: lines.map((line, i) => ratio(times(amounts[i], reachOf(line)), flour)),
    parts: places.map((at, index) => {
      const made = inPart(index, grams, everything)
      return {
        made,
        used: times(made, left(at)),
        flour: inPart(index, grams, flourShare),
        hydration: hydrationIn(index, grams) ?? hydrationIn(index, amounts),
      }
    }),
    dough: total(grams, everything),
    flour: total(grams, flourShare),
    water: total(grams, waterShare),
    hydration: ratio(total(amounts, waterShare), flour),
    salt: ratio(total(amounts, saltShare), flour),
    prefermented: ratio(total(amounts, prefermentedShare), flour),
    basis,
  }
}

/** The amount of each line as made: in grams, or, when nothing gives the scale, in units of the flour's hundred percent. */
function solve(lines: ExactLine[], places: Place[], doughG: Maybe) {
  const reached = (line: ExactLine) => times(line.amount, places[line.partIndex]?.reach)
  const byMass = lines.filter((line) => line.unit === "g")
  const inPercent = lines.filter((line) => line.unit === "share")
  const massFlour = sum(byMass.map((line) => times(reached(line), flourIn[line.countsAs])))
  const share = sum(inPercent.map((line) => times(line.amount, flourIn[line.countsAs])))
  const followed = places.every(({ reach }) => reach !== undefined)

  const amountsFor = (whole: Maybe, inGrams: boolean) =>
    lines.map((line) => {
      if (line.unit === "g") return inGrams || line.amount === 0 ? line.amount : undefined
      const reach = places[line.partIndex]?.reach
      return reach === undefined ? undefined : times(line.amount, whole, 1 / reach)
    })
  const solved = (from: Totals["basis"]["from"], whole: Maybe, inGrams: boolean, overfull = false) => ({
    amounts: amountsFor(whole, inGrams),
    inGrams,
    basis: { from, share: share ?? 0, overfull },
  })

  if (!followed || massFlour === undefined || share === undefined) return solved("nothing", undefined, true)
  if (massFlour > 0) {
    const overfull = share >= 1
    return solved("mass", overfull ? undefined : massFlour / (1 - share), true, overfull)
  }
  if (share === 0) return solved("nothing", undefined, true)
  const restG = doughG === undefined ? undefined : minus(doughG, sum(byMass.map(reached)))
  const allPercent = sum(inPercent.map(({ amount }) => amount))
  const whole = ratio(restG, allPercent)
  if (whole === undefined) return solved("percent", 1, false)
  return whole > 0 ? solved("dough", whole, true) : solved("percent", 1, false, true)
}

/**
 * Which parts have fermented before the final dough: those with yeast or starter in them, their own or that of a part they
 * take up, and those that go into such a part on the way. A soaker has not.
 */
function prefermentedParts(lines: ExactLine[], places: Place[]) {
  const own = new Set(lines.filter(({ countsAs }) => ["leaven", "starter"].includes(countsAs)).map((l) => l.partIndex))
  const ferments = (index: number): boolean => own.has(index) || places[index]!.childIndexes.some(ferments)
  const before = (index: number): boolean => {
    const { intoIndex, reach } = places[index]!
    if (intoIndex === undefined || reach === undefined) return false
    return ferments(index) || before(intoIndex)
  }
  return places.map((_, index) => before(index))
}

const left = (place: Place | undefined) => (place?.stays === undefined ? undefined : 1 - place.stays)

// Nothing of an unknown amount is still nothing; otherwise what is unknown makes the whole unknown.
const times = (...factors: Maybe[]): Maybe =>
  factors.includes(0)
    ? 0
    : factors.reduce((product, f) => (product === undefined || f === undefined ? undefined : product * f), 1)
const sum = (terms: Maybe[]): Maybe =>
  terms.reduce((total, term) => (total === undefined || term === undefined ? undefined : total + term), 0)
const minus = (a: number, b: Maybe): Maybe => (b === undefined ? undefined : a - b)
const ratio = (a: Maybe, b: Maybe): Maybe => (a === undefined || b === undefined || b === 0 ? undefined : a / b)
