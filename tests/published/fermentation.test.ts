import { expect, test } from "vitest"
import { phGate, saltGate, sugarGate, sugarTurns, undissociatedAcetic } from "../../server/dough/fermentation/gates.ts"
import {
  cardinalShare,
  culturePerHour,
  growthPerHour,
  type Organism,
  rate,
  saccharomycesGrowth,
} from "../../server/dough/fermentation/growth.ts"
import { doughCurve } from "../../server/dough/fermentation/temperature-curve.ts"
import { fToC } from "../../server/dough/units.ts"

type Seen = "primary" | "secondary" | "memory"

function within(actual: number, expected: number, tolerance: number) {
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance)
}

const yeast: Organism = "K. humilis"
const lactobacilli: Organism = "L. sanfranciscensis"
const ofBest = (organism: Organism, doughC: number) =>
  growthPerHour(organism, doughC) / growthPerHour(organism, bestC(organism))

function bestC(organism: Organism) {
  const tenths = Array.from({ length: 450 }, (_, tenth) => tenth / 10)
  return tenths.reduce((best, c) => (growthPerHour(organism, c) > growthPerHour(organism, best) ? c : best))
}

const table = {
  source:
    "M. Gänzle's table in rec.food.sourdough FAQ no. 37, after Gänzle, Ehmann & Hammes 1998, Appl Environ Microbiol 64:2616",
  seen: "memory" as Seen,
  url: "http://www.faqs.org/faqs/food/sourdough/faq/section-36.html",
}
test.each([
  ...[
    [2, 0.019, 0.005],
    [4, 0.026, 0.008],
    [6, 0.035, 0.013],
    [8, 0.047, 0.021],
    [10, 0.063, 0.033],
    [16, 0.144, 0.114],
    [18, 0.187, 0.163],
    [20, 0.239, 0.225],
  ].flatMap(([doughC, bacteria, yeasts]) => [
    {
      what: `lactobacilli at ${doughC} °C, per h`,
      organism: lactobacilli,
      doughC: doughC!,
      expected: bacteria!,
      ...table,
    },
    { what: `sourdough yeast at ${doughC} °C, per h`, organism: yeast, doughC: doughC!, expected: yeasts!, ...table },
  ]),
])("$what: $source ($seen)", ({ organism, doughC, expected }) => {
  within(growthPerHour(organism, doughC), expected, 0.001)
})

// The author's rounded rules of thumb, which hold dough results as well, so they are held to only loosely.
const thumb = {
  source: "M. Gänzle, rec.food.sourdough FAQ no. 39, 1998",
  seen: "primary" as Seen,
  url: "http://www.nyx.net/~dgreenw/whatfactorsaffectmicrobial.html",
}
test.each([
  ...[
    [15, 0.25],
    [20, 0.5],
    [37, 0.5],
    [39, 0.25],
  ].map(([doughC, expected]) => ({
    organism: lactobacilli,
    doughC: doughC!,
    expected: expected!,
    tolerance: 0.25,
    ...thumb,
  })),
  { organism: lactobacilli, doughC: 41, expected: 0, tolerance: 0.001, ...thumb },
  ...[
    [14, 0.25],
    [20, 0.5],
    [32, 0.5],
    [34, 0.25],
  ].map(([doughC, expected]) => ({ organism: yeast, doughC: doughC!, expected: expected!, tolerance: 0.15, ...thumb })),
  { organism: yeast, doughC: 35, expected: 0, tolerance: 0.03, ...thumb },
  {
    organism: yeast,
    doughC: 35,
    expected: 0,
    tolerance: 0.03,
    source: "Brandt, Hammes & Gänzle 2004, Eur Food Res Technol 218:333, abstract, rye dough",
    seen: "primary" as Seen,
    url: "https://link.springer.com/article/10.1007%2Fs00217-003-0867-0",
  },
])("$organism at $doughC °C grows at $expected of its best: $source ($seen)", (row) => {
  within(ofBest(row.organism, row.doughC), row.expected, row.tolerance)
})

test.each([
  {
    organism: yeast,
    expected: 27,
    tolerance: 0.5,
    source: "Gänzle, Ehmann & Hammes 1998, abstract",
    seen: "primary",
    url: "https://www.ncbi.nlm.nih.gov/pubmed/9647838",
  },
  {
    organism: yeast,
    expected: 28,
    tolerance: 1,
    source: "Brandt, Hammes & Gänzle 2004, abstract, rye dough",
    seen: "primary",
    url: "https://link.springer.com/article/10.1007%2Fs00217-003-0867-0",
  },
  {
    organism: lactobacilli,
    expected: 32,
    tolerance: 1,
    source: "Brandt, Hammes & Gänzle 2004, abstract, rye dough",
    seen: "primary",
    url: "https://link.springer.com/article/10.1007%2Fs00217-003-0867-0",
  },
])("$organism grows best at $expected °C: $source ($seen)", ({ organism, expected, tolerance }) => {
  within(bestC(organism), expected, tolerance)
})

test("sourdough yeast doubles its rate every 7 °F from 40 to 75 °F: D. Adams, rec.food.sourdough FAQ no. 37 (primary)", () => {
  const doublings = Math.log2(culturePerHour(fToC(75)) / culturePerHour(fToC(40)))
  within(35 / doublings, 7, 0.6)
})

const salvado = {
  source:
    "cardinal model (Rosso et al. 1993) with S. cerevisiae of Salvadó et al. 2011, Appl Environ Microbiol 77:2292, abstract",
  seen: "primary" as Seen,
  url: "https://pmc.ncbi.nlm.nih.gov/articles/PMC3067424",
}
test.each([
  { doughC: 32.3, expected: 1, tolerance: 1e-9, ...salvado },
  { doughC: 45.4, expected: 0, tolerance: 1e-9, ...salvado },
])("baker's yeast at $doughC °C grows at $expected of its best: $source ($seen)", ({ doughC, expected, tolerance }) => {
  within(cardinalShare(doughC, saccharomycesGrowth), expected, tolerance)
})

const abstract1998 = {
  source: "Gänzle, Ehmann & Hammes 1998, abstract",
  seen: "primary" as Seen,
  url: "https://www.ncbi.nlm.nih.gov/pubmed/9647838",
}
test.each([
  { what: "lactobacilli at 4 % salt", left: saltGate("lactobacilli", 0.04), expected: 0, ...abstract1998 },
  { what: "lactobacilli at pH 3.85", left: phGate("lactobacilli", 3.85), expected: 0, ...abstract1998 },
  { what: "lactobacilli at pH 3.9", left: phGate("lactobacilli", 3.9), expected: 1, ...abstract1998 },
  { what: "lactobacilli at pH 6.7", left: phGate("lactobacilli", 6.7), expected: 1, ...abstract1998 },
  { what: "lactobacilli at pH 6.8", left: phGate("lactobacilli", 6.8), expected: 0, ...abstract1998 },
  { what: "yeast at pH 3.5", left: phGate("yeast", 3.5), expected: 1, ...abstract1998 },
  { what: "yeast at pH 5", left: phGate("yeast", 5), expected: 1, ...abstract1998 },
  { what: "yeast at pH 7", left: phGate("yeast", 7), expected: 1, ...abstract1998 },
])("$what keep $expected of their growth: $source ($seen)", ({ left, expected }) => {
  expect(left).toBe(expected)
})

test("yeast stands 8 % salt: Gänzle, Ehmann & Hammes 1998, abstract (primary)", () => {
  expect(saltGate("yeast", 0.08)).toBeGreaterThan(0)
})

test("of 250 mmol/l acetic acid at pH 4.756 half is undissociated: Henderson-Hasselbalch, pKa of the CRC Handbook (memory)", () => {
  within(undissociatedAcetic(250, 4.756), 125, 0.01)
})

test("250 mmol/l acetate stays below what stops the yeast at pH 5 and above: Gänzle, Ehmann & Hammes 1998, abstract (primary)", () => {
  expect(undissociatedAcetic(250, 5)).toBeLessThan(150)
})

test("gas falls above 5 % sugar: Marek & Bushuk 1967, Cereal Chem 44:300, abstract (primary)", () => {
  within(sugarTurns, 0.05, 0.01)
  expect(sugarGate(0.05)).toBe(1)
  expect(sugarGate(0.1)).toBeLessThan(sugarGate(0.06))
})

test("baker's yeast gains about 10 % activity per °C near 27 °C: 'The science of fermentation', bake (secondary)", () => {
  within(100 * (rate(27.5, "baker's yeast") / rate(26.5, "baker's yeast") - 1), 10, 4)
})

test("baker's yeast is most active from 32 to 40 °C: 'The science of fermentation', bake (secondary)", () => {
  const tenths = Array.from({ length: 450 }, (_, tenth) => tenth / 10)
  const best = tenths.reduce((c, other) => (rate(other, "baker's yeast") > rate(c, "baker's yeast") ? other : c))
  within(best, 36, 4)
})

test("a shaped dough takes about 10 h in a refrigerator to 4 °C: public lecture on timing bulk by temperature, 2024 (secondary)", () => {
  const startsAt = new Date("2025-03-08T20:00:00Z")
  const endsAt = new Date(+startsAt + 24 * 3_600_000)
  const curve = doughCurve([{ at: startsAt, doughC: 25 }], [{ startsAt, endsAt, surroundingsC: 2.5, cold: true }])
  const cold = curve.findIndex(({ doughC }) => doughC <= 4)
  const [before, after] = [curve[cold - 1]!, curve[cold]!]
  const share = (before.doughC - 4) / (before.doughC - after.doughC)
  within((+before.at + share * (+after.at - +before.at) - +startsAt) / 3_600_000, 10, 1.5)
})
