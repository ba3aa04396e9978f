/** How many times everything that may be off is drawn: enough for the ends of an 80 % range to a tenth. Our own choice. */
const drawn = 64

/**
 * Standard normal numbers, so many a draw, the same for every bake and every time: pairs by Box & Muller 1958, Ann Math Stat
 * 29:610, from a sequence that fills the cube evenly, k·α modulo 1 with α the powers of the root of x^(d+1) = x + 1 (M.
 * Roberts 2018, a note on quasirandom sequences; both from memory). Throws RangeError for a count that is odd or not above 0.
 */
export function normalDraws(each: number): number[][] {
  if (!(each > 0 && each % 2 === 0)) throw new RangeError(`${each} numbers are not pairs`)
  const steps = Array.from({ length: each }, (_, at) => rootOf(each) ** -(at + 1))
  return Array.from({ length: drawn }, (_, k) => {
    const even = steps.map((step) => (0.5 + (k + 1) * step) % 1)
    return even.map((u, at) => {
      const [radius, turn] = at % 2 ? [even[at - 1]!, u] : [u, even[at + 1]!]
      const far = Math.sqrt(-2 * Math.log(1 - radius))
      return far * (at % 2 ? Math.sin(2 * Math.PI * turn) : Math.cos(2 * Math.PI * turn))
    })
  })
}

/** x^(d+1) = x + 1, by repeating x = (1 + x)^(1/(d+1)). */
function rootOf(d: number) {
  let x = 2
  for (let round = 0; round < 40; round++) x = (1 + x) ** (1 / (d + 1))
  return x
}

/**
 * Two errors that scatter a pair of values just as all of these together do: each is what one standard deviation adds to
 * both values. The Cholesky factor of their covariance.
 */
export function asTwo(errors: [number, number][]): [[number, number], [number, number]] {
  const sum = (of: (pair: [number, number]) => number) => errors.reduce((total, pair) => total + of(pair), 0)
  const a = Math.sqrt(sum(([one]) => one ** 2))
  if (a === 0)
    return [
      [0, Math.sqrt(sum(([, other]) => other ** 2))],
      [0, 0],
    ]
  const along = sum(([one, other]) => one * other) / a
  return [
    [a, along],
    [0, Math.sqrt(Math.max(0, sum(([, other]) => other ** 2) - along ** 2))],
  ]
}
