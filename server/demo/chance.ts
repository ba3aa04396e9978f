/** Draws that repeat exactly for the same seed, so that every demo class shows the same pictures. */
export type Chance = ReturnType<typeof chance>

export function chance(seed: number) {
  // Mulberry32, a public-domain generator by Tommy Ettinger (from memory); drawings need no more than its 32 bits.
  let state = seed >>> 0
  function unit() {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  const between = (low: number, high: number) => low + (high - low) * unit()

  /** Normal, mean 0 and deviation 1 (Box and Muller 1958). */
  const normal = () => Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit())

  return { unit, between, normal, flip: (share = 0.5) => unit() < share, whole: () => Math.floor(unit() * 2 ** 31) }
}
