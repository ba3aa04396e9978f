import type { CountsAs } from "../ingredients/counts-as.ts"
import { type Brings, kinds } from "./brings.ts"
import { childrenFirst, type Place } from "./parts.ts"

/** The lines of a formula without their amounts: in which part, given in grams or as a share of the flour, what is in them. */
export type Mix = {
  places: Place[]
  order: number[]
  /** Whether a part has yeast or starter in it, its own or that of a part that goes into it. A soaker has not. */
  ferments: boolean[]
  /** `brings` has only what there is some of. */
  lines: { partIndex: number; unit: "g" | "share"; flour: number; brings: [kind: keyof Brings, share: number][] }[]
  linesOf: number[][]
}
type MixLine = { partIndex: number; unit: "g" | "share"; brings: Brings; countsAs: CountsAs }

/** The lines with what each brings, and which of it has fermented before the final dough. */
export function mixOf(lines: MixLine[], places: Place[]): Mix {
  const own = new Set(lines.filter(({ countsAs }) => ["leaven", "starter"].includes(countsAs)).map((l) => l.partIndex))
  const order = childrenFirst(places)
  const ferments = places.map(() => false)
  for (const index of order) ferments[index] = own.has(index) || places[index]!.childIndexes.some((i) => ferments[i])
  // by itself, or in a part that it goes into on the way to the final dough
  const fermentsBefore = places.map(({ chain }) => chain?.slice(0, -1).some((part) => ferments[part]) ?? false)
  return {
    ...{ places, order, ferments },
    lines: lines.map(({ partIndex, unit, brings }) => {
      const all = fermentsBefore[partIndex] ? { ...brings, prefermented: brings.flour } : brings
      const some = kinds.flatMap((kind): [keyof Brings, number][] => (all[kind] === 0 ? [] : [[kind, all[kind]]]))
      return { partIndex, unit, flour: brings.flour, brings: some }
    }),
    linesOf: places.map((_, index) => lines.flatMap(({ partIndex }, i) => (partIndex === index ? [i] : []))),
  }
}

/** What one part holds as made, or the whole dough, in grams (or, without a scale, in shares of all flour). */
export type Sums = Brings

const none = Object.fromEntries(kinds.map((kind) => [kind, 0])) as Sums
const unknown = Object.fromEntries(kinds.map((kind) => [kind, Number.NaN])) as Sums

/** What each part holds as made, with what other parts bring into it; `amounts` are those of the lines, as made. */
export function sumParts(mix: Mix, left: number[], amounts: number[]): Sums[] {
  const { places, order, ferments, lines, linesOf } = mix
  const sums = places.map(() => unknown)
  for (const index of order) {
    const sum = { ...none }
    for (const i of linesOf[index]!) for (const [kind, share] of lines[i]!.brings) sum[kind] += of(share, amounts[i]!)
    for (const child of places[index]!.childIndexes) add(sum, asUsed(sums[child]!, ferments[child]!), left[child]!)
    sums[index] = sum
  }
  return sums
}

/** A part that has fermented is leaven to the one it goes into, and none of its flour is fresh. */
const asUsed = (sum: Sums, fermented: boolean): Sums => (fermented ? { ...sum, freshFlour: 0, leaven: sum.mass } : sum)

/** All final doughs together, without what stays in their bowls; nothing is known while a part leads nowhere. */
export function sumWhole({ places }: Mix, left: number[], sums: Sums[]): Sums {
  if (places.some(({ chain }) => !chain)) return unknown
  const whole = { ...none }
  for (const [index, { isFinal }] of places.entries()) if (isFinal) add(whole, sums[index]!, left[index]!)
  return whole
}

function add(sum: Sums, part: Sums, left: number) {
  for (const kind of kinds) sum[kind] += of(part[kind], left)
}

/** Nothing of an unknown amount is still nothing. */
export const of = (share: number, amount: number) => (share === 0 || amount === 0 ? 0 : share * amount)

/** What goes on from each part's jar, as a share of what is made; NaN when that cannot be told. */
export function leftInParts({ places, order, lines, linesOf }: Mix, amounts: number[]): number[] {
  const left = places.map(() => Number.NaN)
  const madeG = places.map(() => Number.NaN)
  for (const index of order) {
    const { stays, childIndexes } = places[index]!
    let made = 0
    for (const i of linesOf[index]!) made += lines[i]!.unit === "g" ? amounts[i]! : Number.NaN
    for (const child of childIndexes) made += of(left[child]!, madeG[child]!)
    madeG[index] = made
    if (!stays) continue
    const share = "share" in stays ? 1 - stays.share : 1 - stays.g / made
    if (share > 0) left[index] = share
  }
  return left
}
