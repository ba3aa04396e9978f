import type { Say } from "../accounts/say.ts"
import type { Range, Share } from "../dough/amounts.ts"
import { type Small, type Tenth, waysOut } from "../dough/bill/coarse.ts"
import { type Dilution, onScale, type Scale, weigh } from "../dough/formula/weighing.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import { showRange } from "../dough/units.ts"
import { exactlyFor, scaleName, shownBy } from "./scales.ts"

/**
 * An amount in words: as the scale shows it, null where it shows nothing; exactly, where that is another; and what the
 * rounding adds, where it matters.
 */
export type Weighing = { shows: string | null; exactly: string | null; off: string | null }
/**
 * How the list is read: off which scale, in whose words and spoons, with which ingredients of their class, and by how many
 * people where each weighs their own.
 */
export type Reader = {
  scale: Scale
  say: Say
  unit: "g" | "oz"
  measures?: Measures
  own?: Ingredient[]
  people?: number
}

// Less than a hundredth is lost among the droplets that stay in a bowl. Our own limit.
const matters = 0.01

/** An amount, weighed. */
export function weighing(g: Range, reader: Reader): Weighing {
  const { scale, say, unit } = reader
  const [low, high] = [weighed(g.low, scale), weighed(g.high, scale)]
  const { errorG, errorShare } = Math.abs(low.errorShare) > Math.abs(high.errorShare) ? low : high
  const isOff = Math.abs(errorShare) >= matters && high.g > 0
  const shows = shownOn(g, reader)
  const exactly = showRange(g, exactlyFor(scale, unit, say.mass))
  return {
    shows,
    exactly: (shows && isExact(low) && isExact(high)) || sameAmount(shows ?? "", exactly) ? null : exactly,
    off: isOff ? `${errorG > 0 ? "+" : "−"}${say.mass(Math.abs(errorG))}, ${roughly(Math.abs(errorShare))}` : null,
  }
}

const isExact = ({ errorG }: { errorG: number }) => Math.abs(errorG) < 1e-6

/** An amount rounded to what the scale shows; null where it shows nothing of it. */
export function shownOn({ low, high }: Range, { scale }: Pick<Reader, "scale">): string | null {
  const rounded = { low: onScale(low, scale), high: onScale(high, scale) }
  return rounded.high > 0 || high === 0 ? showRange(rounded, (g) => shownBy(scale, g)) : null
}

/** Whether two amounts read alike: "468.0 g" is "468g". */
export const sameAmount = (one: string, other: string) => plain(one) === plain(other)
const plain = (amount: string) =>
  amount
    .replace(/\s/g, "")
    .replace(/(\.\d*?)0+(?!\d)/g, "$1")
    .replace(/\.(?!\d)/g, "")

/** What to do about an amount that the scale shows nothing of, or of something strong too coarsely. */
export function adviceFor(small: Small & { stirs: boolean }, { scale, say, people }: Reader): string | null {
  const { g, stirs } = small
  const { tooCoarse, unsure, g: shown } = weigh(g, scale)
  if (!tooCoarse || (shown > 0 && !stirs)) return null
  const shows = shown > 0 ? `may be off by ${roughly(unsure)}` : "shows nothing"
  const trouble = `For ${say.mass(g)}${people ? " each" : ""} a scale that shows every ${scaleName(scale)} ${shows}`
  const { dissolve, tenth, spoon } = waysOut({ ...small, waterG: stirs ? small.waterG : 0 }, scale)
  const way = dissolve ? stirring(dissolve, scale) : tenth ? takingATenth(tenth, scale) : undefined
  const lessExact = spoon
    ? ` Less exact: ${spoon.count} ${spoon.unit}, levelled off, is about ${say.mass(spoon.g)}, to within ${roughly(spoon.errorShare)}.`
    : ""
  return `${trouble}${way ? `. ${way}` : ": take a finer one."}${lessExact}`
}

function stirring({ stirG, waterG, useG, waterInItG, errorShare }: Dilution, scale: Scale) {
  const lessG = onScale(waterInItG, scale)
  const less = lessG ? `, and ${shownBy(scale, lessG)} less water` : ""
  return `Stir ${shownBy(scale, stirG)} into ${shownBy(scale, waterG)} of the water and use ${shownBy(scale, useG)} of that${less}: right to within ${roughly(errorShare)}.`
}

const takingATenth = ({ weighG, errorShare }: Tenth, scale: Scale) =>
  `Weigh ${shownBy(scale, weighG)}, make ten heaps of it that look alike and use one: right to within ${roughly(errorShare)}.`

const roughly = (share: Share) => `${Number((share * 100).toPrecision(2))} %`

const weighed = (g: number, scale: Scale) => (g > 0 ? weigh(g, scale) : { g: 0, errorG: 0, errorShare: 0 })
