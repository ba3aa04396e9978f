import type { Share } from "../amounts.ts"

/** Yeasts, of the levain or of the packet, or the lactobacilli of a levain. */
export type Kind = "yeast" | "lactobacilli"

/**
 * Growth left at a share of salt on flour, 0..1. Lactobacilli stop at 4 %, yeast does not (Gänzle, Ehmann & Hammes
 * 1998, Appl Environ Microbiol 64:2616, abstract; Brandt, Hammes & Gänzle 2004, Eur Food Res Technol 218:333, abstract,
 * on flour) and stands 8 %. That growth falls in a straight line is our assumption, and so is the yeast's end at 12 %:
 * no slope was published. Throws RangeError for a share outside 0..1.
 */
export function saltGate(kind: Kind, saltShare: Share): number {
  return fallingFrom(0, saltEnds[kind], saltShare)
}
const saltEnds: Record<Kind, Share> = { yeast: 0.12, lactobacilli: 0.04 }

/**
 * Gas left at a share of sugar on flour, 0..1: sugar above 5 % slows ordinary yeast (Marek & Bushuk 1967, Cereal Chem
 * 44:300, abstract). How much is our assumption: from there a straight line to half at 20 %, where bakers turn to
 * osmotolerant yeast, and none from 35 %. That a little sugar speeds yeast up is left out. Throws RangeError for a
 * share outside 0..1.
 */
export function sugarGate(sugarShare: Share): number {
  return fallingFrom(sugarTurns, 0.35, sugarShare)
}
/** Above this share of sugar on flour gas falls. Source: as sugarGate. */
export const sugarTurns: Share = 0.05

function fallingFrom(from: Share, end: Share, share: Share) {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`${share} is not a share from 0 to 1`)
  return Math.min(1, Math.max(0, (end - share) / (end - from)))
}

/**
 * Growth left at a pH: 0 or 1. Lactobacilli grow from 3.9 to 6.7; yeast is indifferent from 3.5 to 7, beyond which
 * nothing was published: undefined. Source: Gänzle, Ehmann & Hammes 1998, abstract.
 */
export function phGate(kind: Kind, ph: number): number | undefined {
  const { low, high } = grows[kind]
  if (ph >= low && ph <= high) return 1
  return kind === "lactobacilli" ? 0 : undefined
}
const grows = { yeast: { low: 3.5, high: 7 }, lactobacilli: { low: 3.9, high: 6.7 } }

/**
 * Acetic acid that is not dissociated, the part that hinders, in the unit of `total`: Henderson-Hasselbalch with pKa
 * 4.756 at 25 °C (CRC Handbook, from memory, not checked against the page). The sourdough yeast stops at 150 mmol/l of
 * it, the lactobacilli stand more than 160 (Gänzle, Ehmann & Hammes 1998, abstract).
 */
export const undissociatedAcetic = (total: number, ph: number): number => total / (1 + 10 ** (ph - 4.756))

/**
 * How fast this dough works against one for which the usual activities hold, 2 % salt and no more sugar than slows
 * nothing: a factor for the activity. Shares on flour. What is assumed, the gates say. Throws RangeError like the
 * gates.
 */
export function doughFactor({ saltShare, sugarShare }: { saltShare: Share; sugarShare: Share }): number {
  return (saltGate("yeast", saltShare) / saltGate("yeast", usualSalt)) * sugarGate(sugarShare)
}
const usualSalt: Share = 0.02
