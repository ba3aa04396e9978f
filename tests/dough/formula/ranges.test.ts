import fc from "fast-check"
import { expect, test } from "vitest"
import type { Range } from "../../../server/dough/amounts.ts"
import { type Figures, workOut } from "../../../server/dough/formula/formula.ts"
import { formula, part } from "./writing.ts"

/** Low, high, and how far between them, from 0 to 1, the amount really is. */
type Amount = { low: number; high: number; at: number }
const amount = (most: number) =>
  fc
    .tuple(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: most }), fc.constantFrom(0, 0.25, 0.5, 0.8, 1))
    .map(([a, b, at]): Amount => ({ low: Math.min(a, b), high: Math.max(a, b), at }))
const open = ({ low, high }: Amount) => (low === high ? `${low}` : `${low}–${high}`)
const exact = ({ low, high, at }: Amount) => `${low + (high - low) * at}`

type Amounts = { starter: Amount; fed: Amount; flour: Amount; rye: Amount; water: Amount; milk: Amount; stays: number }
const amounts = fc.record({
  ...{
    starter: amount(40),
    fed: amount(150),
    flour: amount(900),
    rye: amount(30),
    water: amount(700),
    milk: amount(200),
  },
  stays: fc.integer({ min: 0, max: 80 }),
})

/** Rye is in percent, so that all flour hangs on it. */
const dough = (of: Amounts, tell: (amount: Amount) => string) =>
  workOut(
    formula([
      part("levain", `${tell(of.starter)} g | ripe starter\n${tell(of.fed)} g | flour\n80 g | water`, {
        ...{ goesInto: "dough", staysPercent: `${of.stays} %` },
      }),
      part(
        "dough",
        `${tell(of.flour)} g | flour\n${tell(of.rye)} % | rye flour\n${tell(of.water)} g | water\n${tell(of.milk)} g | milk\n2 % | salt`,
      ),
    ]),
  )

const told = ({ parts, dough, flour, hydration, wholeHydration, salt, prefermented, inoculation }: Figures) => [
  ...[dough, flour, hydration, wholeHydration, salt, prefermented, inoculation],
  ...parts.flatMap(({ made, used, hydration, inoculation }) => [made, used, hydration, inoculation]),
  ...parts.flatMap(({ lines }) => lines.flatMap(({ g, share, shareOfPart }) => [g, share, shareOfPart])),
]

test("whatever amounts within their ranges are taken, every figure lies within its own", () => {
  fc.assert(
    fc.property(amounts, (of) => {
      const ranges = told(dough(of, open))
      const values = told(dough(of, exact))
      for (const [i, range] of ranges.entries()) if (range) expectWithin(values[i]!, range)
    }),
    { numRuns: 25 },
  )
})

function expectWithin({ low }: Range, range: Range) {
  const hair = 1e-9 * Math.max(1, Math.abs(range.high))
  expect(low).toBeGreaterThanOrEqual(range.low - hair)
  expect(low).toBeLessThanOrEqual(range.high + hair)
}
