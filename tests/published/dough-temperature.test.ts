import { expect, test } from "vitest"
import { mixedDoughC, neededWaterC } from "../../server/dough/heat/heat-balance.ts"
import { kneadings, mixerPerMinuteC } from "../../server/dough/heat/kneading.ts"
import { specificHeats } from "../../server/dough/heat/specific-heat.ts"
import {
  baseC,
  frictionC,
  frictionOfRise,
  multiplierWaterC,
  waterFromBaseC,
} from "../../server/dough/heat/water-temperature.ts"
import { cToF, fToC } from "../../server/dough/units.ts"

/** A friction factor is a difference: no 32 in it. */
const differenceC = (f: number) => (f * 5) / 9

const inFahrenheit = [
  {
    what: "3 × 75 − 65 − 65 − 8 °F",
    doughF: 75,
    othersF: [65, 65],
    frictionF: 8,
    expected: 87,
    source: "San Francisco Baking Institute, 2009",
    seen: "secondary",
  },
  {
    what: "3 × 80 − 65 − 75 − 35 °F",
    doughF: 80,
    othersF: [65, 75],
    frictionF: 35,
    expected: 65,
    source: "T. Lehmann, Pizza Today, June 2018",
    seen: "primary",
    url: "https://www.nxtbook.com/nxtbooks/pizzatoday/201806/index.php?startid=29",
  },
  {
    what: "4 × 75 − 3 × 71 − 20 °F",
    doughF: 75,
    othersF: [71, 71, 71],
    frictionF: 20,
    expected: 67,
    source: "Cook's Illustrated, Precise water temperature for the perfect loaf",
    seen: "primary",
    url: "https://www.cooksillustrated.com/how_tos/5818-precise-water-temperature-for-the-perfect-loaf",
  },
].map((one) => ({ ...one, tolerance: 1e-9 }))
test.each(inFahrenheit)("$what: $source ($seen)", ({ doughF, othersF, frictionF, expected, tolerance }) => {
  const waterC = multiplierWaterC({
    doughC: fToC(doughF),
    othersC: othersF.map(fToC),
    frictionC: differenceC(frictionF),
  })
  expect(Math.abs(cToF(waterC) - expected)).toBeLessThanOrEqual(tolerance)
})

const byRise = [
  {
    what: "(26 − 5) × 4 − 22 − 22 − 6 °C",
    riseC: 5,
    othersC: [22, 22, 6],
    expected: 34,
    source: "L. Geißler, baeckerlatein.de, Teigtemperatur",
    seen: "primary",
    url: "https://www.baeckerlatein.de/teigtemperatur/",
  },
  {
    what: "(26 − 3) × 3 − 22 − 22 °C",
    riseC: 3,
    othersC: [22, 22],
    expected: 25,
    source: "Fisch im Teigmantel, Teigtemperatur berechnen, 2021",
    seen: "primary",
    url: "https://fischeimteigmantel.com/2021/10/06/teigtemperatur-berechnen/",
  },
  {
    what: "(26 − 3) × 4 − 22 − 22 − 6 °C",
    riseC: 3,
    othersC: [22, 22, 6],
    expected: 42,
    source: "Fisch im Teigmantel, Teigtemperatur berechnen, 2021",
    seen: "primary",
    url: "https://fischeimteigmantel.com/2021/10/06/teigtemperatur-berechnen/",
  },
].map((one) => ({ ...one, doughC: 26, tolerance: 1e-9 }))
test.each(byRise)("$what: $source ($seen)", ({ doughC, riseC, othersC, expected, tolerance }) => {
  const friction = frictionOfRise({ terms: othersC.length + 1, riseC })
  const waterC = multiplierWaterC({ doughC, othersC, frictionC: friction })
  expect(Math.abs(waterC - expected)).toBeLessThanOrEqual(tolerance)
})

const friction = [
  {
    what: "friction of a dough at 75 °F from 65, 65 and water at 87 °F",
    doughF: 75,
    othersF: [65, 65],
    waterF: 87,
    expected: 8,
    tolerance: 1e-9,
    source: "definition in T. Lehmann, PMQ, spring 2003; numbers of the San Francisco Baking Institute",
    seen: "secondary",
    url: "http://www.pmq.com/Spring-2003/In-Lehmanns-Terms/",
  },
]
test.each(friction)("$what: $source ($seen)", ({ doughF, othersF, waterF, expected, tolerance }) => {
  const found = frictionC({ doughC: fToC(doughF), othersC: othersF.map(fToC), waterC: fToC(waterF) })
  expect(Math.abs(found - differenceC(expected))).toBeLessThanOrEqual(tolerance)
})

const fromBase = [
  {
    what: "base 48 °C with room and flour at 21 °C",
    base: 48,
    roomC: 21,
    flourC: 21,
    expected: 6,
    tolerance: 1e-9,
    source: "French base temperature, 48 − 42",
    seen: "primary",
  },
]
test.each(fromBase)("$what: $source ($seen)", ({ base, roomC, flourC, expected, tolerance }) => {
  expect(Math.abs(waterFromBaseC({ baseC: base, roomC, flourC }) - expected)).toBeLessThanOrEqual(tolerance)
  // the same method: a base is three times the dough less its friction
  const dough = { doughC: 24, frictionC: 24 }
  expect(baseC(dough)).toBe(base)
  expect(multiplierWaterC({ ...dough, othersC: [roomC, flourC] })).toBeCloseTo(expected, 9)
})

const inTheBalance = [
  {
    what: "5 °F in the water move a dough of 60 % water by about 2 °F",
    waterF: 5,
    expected: 2,
    tolerance: 1,
    source: "T. Lehmann, Pizza Today, June 2018",
    seen: "primary",
    url: "https://www.nxtbook.com/nxtbooks/pizzatoday/201806/index.php?startid=28",
  },
]
test.each(inTheBalance)("$what: $source ($seen)", ({ waterF, expected, tolerance }) => {
  const flour = { name: "flour", mass: 100, kJPerKgK: specificHeats.flour, tempC: 21 }
  const mix = { waterMass: 60, additions: [flour], riseC: 3 }
  const movedC = mixedDoughC(mix, 20 + differenceC(waterF)) - mixedDoughC(mix, 20)
  expect(Math.abs(movedC - differenceC(expected))).toBeLessThanOrEqual(differenceC(tolerance))
  expect(movedC / differenceC(1)).toBeCloseTo(2.886, 3)
  expect(neededWaterC(mix, mixedDoughC(mix, 20))).toBeCloseTo(20, 9)
})

const kneading = [
  {
    what: "a mixer warms a dough by 0.3 to 0.5 °C a minute",
    expected: 0.4,
    tolerance: 0.1,
    found: [mixerPerMinuteC.low, mixerPerMinuteC.high],
    source: "encyclopaedia article Température de base",
    seen: "secondary",
    url: "https://fr.wikipedia.org/wiki/Temp%C3%A9rature_de_base",
  },
  {
    what: "a dough gains 3 to 5 °C from a machine's kneading, a little less in a small mixer",
    expected: 4,
    tolerance: 1.25,
    found: [kneadings.mixer.riseC, kneadings.processor.riseC],
    source: "Fisch im Teigmantel, 2021; L. Geißler, baeckerlatein.de",
    seen: "primary",
    url: "https://fischeimteigmantel.com/2021/10/06/teigtemperatur-berechnen/",
  },
]
test.each(kneading)("$what: $source ($seen)", ({ expected, tolerance, found }) => {
  for (const riseC of found) expect(Math.abs(riseC - expected)).toBeLessThanOrEqual(tolerance + 1e-9)
})
