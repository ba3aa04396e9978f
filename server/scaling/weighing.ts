import type { Say } from "../accounts/say.ts"
import type { Range, Share } from "../dough/amounts.ts"
import { type Dilution, dilutionFor, type Scale, weigh } from "../dough/formula/weighing.ts"
import { showRange } from "../dough/units.ts"
import { exactlyFor, shownBy } from "./scales.ts"

/**
 * An amount in words: as the scale shows it, null where it shows nothing; exactly, where that is another; and what the
 * rounding adds, where it matters.
 */
export type Weighing = { shows: string | null; exactly: string | null; off: string | null }
/** How the list is read: off which scale, in whose words, and by how many people where each weighs their own. */
export type Reader = { scale: Scale; say: Say; unit: "g" | "oz"; people?: number }

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
    exactly: sameAmount(shows ?? "", exactly) ? null : exactly,
    off: isOff ? `${errorG > 0 ? "+" : "−"}${say.mass(Math.abs(errorG))}, ${roughly(Math.abs(errorShare))}` : null,
  }
}

/** An amount rounded to what the scale shows; null where it shows nothing of it. */
export function shownOn({ low, high }: Range, { scale }: Pick<Reader, "scale">): string | null {
  const rounded = { low: weighed(low, scale).g, high: weighed(high, scale).g }
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
export function adviceFor(g: number, stirs: boolean, waterG: number, { scale, say, people }: Reader): string | null {
  const { tooCoarse, unsure, errorShare, g: shown } = weigh(g, scale)
  if (!tooCoarse || (shown > 0 && !stirs)) return null
  const shows = shown > 0 ? `may be off by ${roughly(unsure)}` : "shows nothing"
  const trouble = `For ${say.mass(g)}${people ? " each" : ""} a scale that shows every ${scale.step} ${scale.unit} ${shows}`
  const dilution = stirs ? dilutionFor(g, scale, waterG) : undefined
  const pays = dilution && dilution.errorShare <= worthIt * (Math.abs(errorShare) + unsure)
  return pays ? `${trouble}. ${stirring(dilution, scale)}` : `${trouble}: take a finer one.`
}

// Twice as sure is worth another bowl. Our own choice.
const worthIt = 0.5

function stirring({ stirG, waterG, useG, waterInItG, errorShare }: Dilution, scale: Scale) {
  const lessG = weighed(waterInItG, scale).g
  const less = lessG ? `, and ${shownBy(scale, lessG)} less water` : ""
  return `Stir ${shownBy(scale, stirG)} into ${shownBy(scale, waterG)} of the water and use ${shownBy(scale, useG)} of that${less}: right to within ${roughly(errorShare)}.`
}

const roughly = (share: Share) => `${Number((share * 100).toPrecision(2))} %`

const weighed = (g: number, scale: Scale) => (g > 0 ? weigh(g, scale) : { g: 0, errorG: 0, errorShare: 0 })
