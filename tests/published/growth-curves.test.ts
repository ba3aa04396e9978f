import "fmin"
import { describe, expect, test } from "vitest"
import {
  type Curve,
  type CurveReading,
  fitGompertz,
  fitLogistic,
  gompertz,
  logistic,
} from "../../server/dough/fermentation/rise-curve.ts"

const readings = (hours: number[], sizes: number[]): CurveReading[] =>
  hours.map((h, i) => ({ hours: h, rise: sizes[i]! }))

function fitted(through: typeof fitLogistic, data: CurveReading[]) {
  const answer = through(data)
  if (!answer.enough) throw new Error(answer.why)
  const { most, perHour, lagHours } = answer.value
  return { ...answer.value, curve: { most: most.value, perHour: perHour.value, lagHours: lagHours.value } }
}
const near = (actual: number, expected: number, share: number) =>
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(share)

// G. F. Gause 1934, The Struggle for Existence, appendix, table 1, in the open R package gauseR; volume of yeast against hours.
const saccharomyces = readings(
  [6, 16, 24, 29, 40, 48, 53, 7.5, 15, 24, 31.5, 33, 44, 51.5],
  [0.37, 8.87, 10.66, 12.5, 13.27, 12.87, 12.7, 1.63, 6.2, 10.97, 12.6, 12.9, 12.77, 12.9],
)
const schizosaccharomyces = readings(
  [16, 29, 48, 72, 93, 117, 141, 15, 31.5, 51.5],
  [1, 1.7, 2.73, 4.87, 5.67, 5.8, 5.83, 1.27, 2.33, 4.56],
)
// G. F. Gause 1932, Q Rev Biol, table 5: S. cerevisiae at 15 °C, second experiment, in gauseR.
const cold = readings([16, 32, 48.5, 75.5, 96.5, 119, 144.5, 168.5], [0.12, 1, 2.82, 5.63, 6.43, 7.27, 8.14, 7.32])
// T. Carlson 1913, Biochem Z 57:313, thousands of cells; 13 counts after J. M. Mahaffy's lab sheet, the others from memory.
const carlson = readings(
  [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18],
  [
    9.6, 18.3, 29, 47.2, 71.1, 119.1, 174.6, 257.3, 350.7, 441, 513.3, 559.7, 594.8, 629.4, 640.8, 651.1, 655.9, 659.6,
    661.8,
  ],
)

const mahaffy = {
  source: "least-squares logistic of Gause's data, J. M. Mahaffy, lecture notes, San Diego State Univ.",
  seen: "secondary",
  url: "https://www.coursehero.com/file/p2c1bri/I-Mixed-populations-of-two-species-of-yeast-J-Exp-Biol-9-p-389-Joseph-M-Mahaffy/",
}
test.each([
  { what: "Saccharomyces", data: saccharomyces, plateau: 12.742, rate: 0.25864, atHour6: 1.2343, ...mahaffy },
  {
    what: "Schizosaccharomyces",
    data: schizosaccharomyces,
    plateau: 5.8802,
    rate: 0.057443,
    atHour6: 0.67805,
    ...mahaffy,
  },
])("$what: plateau $plateau, rate $rate, at hour 6 $atHour6: $source ($seen)", ({ data, plateau, rate, atHour6 }) => {
  const { curve } = fitted(fitLogistic, data)
  near(curve.most, plateau, 0.0002)
  near((4 * curve.perHour) / curve.most, rate, 0.0002)
  near(logistic(curve, 6), atHour6, 0.0002)
})

test("S. cerevisiae at 15 °C: plateau 7.5606, slope 0.1169, lag 27.0461: Gause 1932, table 5, fitted with SciPy (primary data)", () => {
  const { curve } = fitted(fitLogistic, cold)
  near(curve.most, 7.5606, 0.01)
  near(curve.perHour, 0.1169, 0.01)
  near(curve.lagHours, 27.0461, 0.01)
})

test("Carlson's yeast ends at 665 thousand cells: R. Pearl 1927 (memory)", () => {
  const { curve } = fitted(fitLogistic, carlson)
  expect(Math.abs(curve.most - 665)).toBeLessThanOrEqual(5)
})

test("Gompertz is steepest, with slope μ, at λ + A/(eμ) and there at A/e: Zwietering et al. 1990, identities (secondary)", () => {
  const curve: Curve = { most: 10, perHour: 2, lagHours: 5 }
  const slope = (h: number) => (gompertz(curve, h + 1e-5) - gompertz(curve, h - 1e-5)) / 2e-5
  const steepest = Array.from({ length: 20_000 }, (_, i) => i / 1000).reduce((a, b) => (slope(b) > slope(a) ? b : a))
  expect(steepest).toBeCloseTo(6.8394, 2)
  expect(slope(5 + 10 / (Math.E * 2))).toBeCloseTo(2, 6)
  expect(gompertz(curve, 5 + 10 / (Math.E * 2))).toBeCloseTo(3.67879, 5)
})

// With sigma 1 it stops where its simplex would shrink: the release that we use fails there in strict mode.
const untilNoBetter = { maxIterations: 5000, minErrorDelta: 1e-12, sigma: 1 }
describe("a Nelder-Mead search of another library", () => {
  test.each([
    { what: "logistic", form: logistic, fit: fitLogistic, data: saccharomyces },
    { what: "logistic", form: logistic, fit: fitLogistic, data: schizosaccharomyces },
    { what: "logistic", form: logistic, fit: fitLogistic, data: cold },
    { what: "Gompertz", form: gompertz, fit: fitGompertz, data: saccharomyces },
    { what: "Gompertz", form: gompertz, fit: fitGompertz, data: schizosaccharomyces },
    { what: "Gompertz", form: gompertz, fit: fitGompertz, data: cold },
    { what: "Gompertz", form: gompertz, fit: fitGompertz, data: carlson },
  ])("finds no better $what, and the same one", ({ form, fit, data }) => {
    const { curve, scatter } = fitted(fit, data)
    const squares = ([most, perHour, lagHours]: number[]) =>
      data.reduce((sum, { hours, rise }) => {
        return sum + (form({ most: most!, perHour: perHour!, lagHours: lagHours! }, hours) - rise) ** 2
      }, 0)
    const start = [curve.most * 1.2, curve.perHour * 0.8, curve.lagHours * 0.9]
    const found = fmin.nelderMead(squares, start, untilNoBetter)
    near(squares([curve.most, curve.perHour, curve.lagHours]), found.fx, 1e-6)
    near(scatter ** 2 * (data.length - 3), found.fx, 1e-6)
    near(found.x[0]!, curve.most, 1e-4)
    near(found.x[1]!, curve.perHour, 1e-4)
  })
})
