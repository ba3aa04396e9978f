import type { Grey, Mask } from "./picture.ts"

/** How many pixels have each grey level, of those `inside` (all of them without). */
export function histogram({ data }: Grey, inside?: Mask): Uint32Array {
  const counts = new Uint32Array(256)
  for (let i = 0; i < data.length; i++) if (inside?.data[i] !== 0) counts[data[i]!]!++
  return counts
}

/**
 * The last level of the darker class, and the two classes' mean levels and the share of the darker one, when the
 * histogram is cut where the variance between the classes is largest; of equal cuts the lowest. Exact, no smoothing.
 * `undefined` when all pixels have one level: nothing to tell apart.
 * Source: Otsu 1979, IEEE Trans. SMC 9(1):62–66 (from memory; equal to two independent libraries, see the tests).
 */
export function otsu(counts: ArrayLike<number>) {
  let total = 0
  let sum = 0
  for (let level = 0; level < counts.length; level++) {
    total += counts[level]!
    sum += level * counts[level]!
  }
  let best: { threshold: number; darkMean: number; lightMean: number; darkShare: number; between: number } | undefined
  let dark = 0
  let darkSum = 0
  for (let threshold = 0; threshold < counts.length; threshold++) {
    dark += counts[threshold]!
    darkSum += threshold * counts[threshold]!
    if (dark === 0) continue
    if (dark === total) break
    const [darkMean, lightMean] = [darkSum / dark, (sum - darkSum) / (total - dark)]
    const darkShare = dark / total
    const between = darkShare * (1 - darkShare) * (lightMean - darkMean) ** 2
    if (!best || between > best.between) best = { threshold, darkMean, lightMean, darkShare, between }
  }
  return best
}
