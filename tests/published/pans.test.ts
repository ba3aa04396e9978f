import { expect, test } from "vitest"
import { readPan } from "../../server/dough/formula/pan-measures.ts"
import { type Pan, volumeMl } from "../../server/dough/formula/pans.ts"

// 231 in³ to the gallon, sixteen cups: NIST Handbook 44, Appendix C.
const cupMl = 236.5882365

const chart = {
  source: "pan substitution chart, Time Inc. 2008",
  seen: "secondary",
  url: "https://studylib.net/doc/18320804/easy-pan-substitutions",
} as const
const newspaper = { source: "M. Parrish, Pittsburgh Post-Gazette / TNS, 27 Sept 2016", seen: "secondary" } as const

function panOf(shape: Parameters<typeof readPan>[0], text: string): Pan {
  const read = readPan(shape, text)
  if ("problem" in read) throw new Error(read.problem)
  return read.pan
}

/** Published cups leave the rim free, and tins taper: 0.86 to 0.95 of what straight sides hold to the brim. */
const counts = [
  { ...chart, what: "8 × 8 × 1.5 in", shape: "square", inside: "8 × 1.5 in", cups: 6, brimCups: 6.649 },
  { ...chart, what: "9 × 9 × 1.5 in", shape: "square", inside: "9 × 1.5 in", cups: 8, brimCups: 8.416 },
  { ...chart, what: "9 in round × 1.5", shape: "round", inside: "9 × 1.5 in", cups: 6, brimCups: 6.61 },
  { ...chart, what: "13 × 9 × 2 in", shape: "rectangle", inside: "13 × 9 × 2 in", cups: 14, brimCups: 16.208 },
  { ...chart, what: "9 × 5 × 3 in loaf", shape: "rectangle", inside: "9 × 5 × 3 in", cups: 8, brimCups: 9.351 },
  {
    ...chart,
    what: "8.5 × 4.5 × 2.5 in loaf",
    shape: "rectangle",
    inside: "8.5 × 4.5 × 2.5 in",
    cups: 6,
    brimCups: 6.623,
  },
  { ...newspaper, what: "8 in round × 2", shape: "round", inside: "8 × 2 in", cups: 6, brimCups: 6.963 },
] as const

test.each(counts)("$what holds $cups cups: $source ($seen)", ({ shape, inside, cups, brimCups }) => {
  const ours = volumeMl(panOf(shape, inside)) / cupMl
  expect(ours).toBeCloseTo(brimCups, 3 - 1)
  expect(cups / ours).toBeGreaterThanOrEqual(0.85)
  expect(cups / ours).toBeLessThanOrEqual(1)
})

// The same newspaper row by row: 11 × 7 × 2 in is given 6 cups, where its sides hold 10.67. No tin tapers that much.
test("the 6 cups printed for an 11 × 7 × 2 in pan cannot be right (secondary)", () => {
  const ours = volumeMl(panOf("rectangle", "11 × 7 × 2 in")) / cupMl
  expect(ours).toBeCloseTo(10.67, 2)
  expect(6 / ours).toBeLessThan(0.6)
})

test.each([
  {
    what: "10 × 10 at the rim, 8 × 8 at the bottom, 5 high, of any unit cubed",
    source: "prismoidal rule h/6·(A1 + 4Am + A2), textbook geometry",
    pan: { outline: "rectangle", topMm: [10, 10], bottomMm: [8, 8], heightMm: 5 } satisfies Pan,
    expected: 406.6667,
  },
  {
    what: "a round frustum 260 across the rim, 240 at the bottom, 50 high",
    source: "πh/3·(R² + Rr + r²), textbook geometry",
    pan: { outline: "round", topMm: 260, bottomMm: 240, heightMm: 50 } satisfies Pan,
    expected: ((Math.PI * 50) / 3) * (130 ** 2 + 130 * 120 + 120 ** 2),
  },
])("$what: $source", ({ pan, expected }) => {
  expect(volumeMl(pan) * 1000).toBeCloseTo(expected, 3)
})
