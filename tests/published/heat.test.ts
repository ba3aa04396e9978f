import { expect, test } from "vitest"
import { boilingPointC, gasExpansion, pressureKPa, yeastToLeaveOut } from "../../server/dough/heat/altitude.ts"
import { diffusivityM2PerS } from "../../server/dough/heat/conduction.ts"
import { bakedInsideC, yeastDiesC } from "../../server/dough/heat/inside.ts"
import { hoursToReach, largeBatchHeatingCPerHour, refrigeratedLoafTauHours } from "../../server/dough/heat/newton.ts"
import { specificHeatOf, specificHeatOfMix, specificHeats } from "../../server/dough/heat/specific-heat.ts"
import { hottestWaterC } from "../../server/dough/heat/water-for.ts"
import { cToF } from "../../server/dough/units.ts"

const geankoplis = {
  source: "Geankoplis, App. A.4-1",
  seen: "primary",
  url: "https://www.safaribooksonline.com/library/view/transport-processes-and/013101367X/013101367X_app04.html",
}
const earle = {
  source: "Earle, Unit Operations in Food Processing, App. 7 (NZIFST)",
  seen: "primary",
  url: "https://nzifst.org.nz/resources/unitoperations/appendix7.htm",
}
const rask = {
  source: "Rask 1989, J Food Eng 9:167, quoted",
  seen: "secondary",
  url: "https://www.physicsforums.com/threads/temperature-change-how-fast-does-bread-cool-to-room-temperature.774666/",
}
/** Flour and water only, so many per cent of the flour. */
const dough = (hydrationPercent: number) =>
  specificHeatOfMix([
    { mass: 100, kJPerKgK: specificHeats.flour },
    { mass: hydrationPercent, kJPerKgK: specificHeats.water },
  ])

const specific = [
  { what: "flour", found: specificHeats.flour, expected: 1.84, tolerance: 0.045, ...geankoplis },
  {
    what: "flour from its 12.75 % of water",
    found: specificHeatOf({ water: 12.75, fat: 1 }),
    expected: 1.84,
    tolerance: 0.045,
    ...geankoplis,
  },
  { what: "water", found: specificHeats.water, expected: 4.185, tolerance: 0.005, ...geankoplis },
  { what: "whole milk", found: specificHeats.milk, expected: 3.85, tolerance: 0.005, ...geankoplis },
  {
    what: "whole milk from 87.5 % water",
    found: specificHeatOf({ water: 87.5, fat: 3.5 }),
    expected: 3.85,
    tolerance: 0.05,
    ...geankoplis,
  },
  { what: "whole milk", found: specificHeats.milk, expected: 3.9, tolerance: 0.15, ...earle },
  { what: "butter", found: specificHeats.butter, expected: 2.3, tolerance: 0.005, ...geankoplis },
  {
    what: "butter from 15 % water",
    found: specificHeatOf({ water: 15, fat: 83 }),
    expected: 2.3,
    tolerance: 0.05,
    ...geankoplis,
  },
  {
    what: "skim milk from 91 % water, 3.98 to 4.02",
    found: specificHeatOf({ water: 91, fat: 0 }),
    expected: 4,
    tolerance: 0.07,
    ...geankoplis,
  },
  {
    what: "whole egg from 75.3 % water",
    found: specificHeatOf({ water: 75.3, fat: 10 }),
    expected: 3.63,
    tolerance: 0.1,
    source: "ASHRAE Handbook, Refrigeration, Thermal Properties of Foods, Table 3",
    seen: "memory",
  },
  {
    what: "white bread of 44.5 % water, 2.72 to 2.85",
    found: specificHeatOf({ water: 44.5, fat: 3 }),
    expected: 2.785,
    tolerance: 0.1,
    ...geankoplis,
  },
  { what: "egg", found: specificHeats.egg, expected: 3.2, tolerance: 0.05, ...earle },
  { what: "dough of 60 % water", found: dough(60), expected: 2.74, tolerance: 0.15, ...rask },
  { what: "dough of 65 % water", found: dough(65), expected: 2.74, tolerance: 0.15, ...rask },
  { what: "dough of 75 % water", found: dough(75), expected: 2.74, tolerance: 0.15, ...rask },
]
test.each(specific)("specific heat of $what: $source ($seen)", ({ found, expected, tolerance }) => {
  expect(Math.abs(found! - expected)).toBeLessThanOrEqual(tolerance)
})

const simpleRule = [
  {
    what: "4.19p + 0.84(1 − p) makes flour of 13 % water 30 % too low, and we do not use it",
    expected: 1.84,
    ...earle,
  },
]
test.each(simpleRule)("$what: $source ($seen)", ({ expected }) => {
  expect(4.19 * 0.13 + 0.84 * 0.87).toBeLessThan(0.71 * expected)
  expect(specificHeatOf({ water: 13, fat: 1 })).toBeGreaterThan(0.98 * expected)
})

const polynomial = [
  {
    what: "one specific heat of water serves from 0 to 45 °C, against 4176.2 − 0.0909t + 0.00547t² J/(kg K)",
    at20: 4176.57,
    tolerance: 0.003,
    source: "Choi & Okos in Becker & Fricke 2003, Encyclopedia of Food Sciences and Nutrition, Table 2",
    seen: "secondary",
    url: "https://www.scribd.com/document/803062783/Cp-Especifico",
  },
]
test.each(polynomial)("$what: $source ($seen)", ({ at20, tolerance }) => {
  const theirs = (t: number) => 4176.2 - 0.0909 * t + 0.00547 * t ** 2
  expect(theirs(20)).toBeCloseTo(at20, 1)
  for (let t = 0; t <= 45; t += 5)
    expect(Math.abs((specificHeats.water * 1000) / theirs(t) - 1)).toBeLessThanOrEqual(tolerance)
})

const diffusivity = [
  { gasShare: 0, expected: 2.38e-7 },
  { gasShare: 0.5, expected: 3.93e-7 },
  { gasShare: 0.7, expected: 4.8e-7 },
].map((one) => ({
  ...one,
  tolerance: 0.01,
  source: "Zanoni, Peri & Gianotti 1995, J Food Eng 26:497, abstract",
  seen: "primary",
  url: "https://www.cheric.org/research/tech/periodicals/view.php?seq=133935",
}))
test.each(diffusivity)("diffusivity of crumb with a share $gasShare of gas: $source ($seen)", (one) => {
  expect(Math.abs(diffusivityM2PerS(one.gasShare) / one.expected - 1)).toBeLessThanOrEqual(one.tolerance)
})

const cooling = [
  {
    what: "a shaped dough takes about 10 h in a refrigerator to 4 °C",
    startC: 25,
    surroundingsC: 2.5,
    expected: 10,
    tolerance: 1.5,
    source: "a public lecture on timing bulk by temperature, 2024",
    seen: "secondary",
  },
]
test.each(cooling)("$what: $source ($seen)", ({ startC, surroundingsC, expected, tolerance }) => {
  const reached = hoursToReach({ startC, surroundingsC, tauHours: refrigeratedLoafTauHours, targetC: 4 })
  expect(Math.abs((reached.kind === "reached" ? reached.hours : Number.NaN) - expected)).toBeLessThanOrEqual(tolerance)
})

const selfHeating = [
  {
    what: "a large fermenting dough warms itself by 1 to 2 °C an hour",
    expected: 1.5,
    tolerance: 0.5,
    source: "L. Geißler, baeckerlatein.de, Teigtemperatur",
    seen: "primary",
    url: "https://www.baeckerlatein.de/teigtemperatur/",
  },
]
test.each(selfHeating)("$what: $source ($seen)", ({ expected, tolerance }) => {
  for (const perHour of Object.values(largeBatchHeatingCPerHour))
    expect(Math.abs(perHour - expected)).toBeLessThanOrEqual(tolerance)
})

const newMexico = {
  source: "a New Mexico extension guide to cooking at altitude; USDA FSIS has the same figures",
  seen: "secondary",
  url: "https://azzkikr.info/ebookdetail.php?id=4240",
}
const metres = (ft: number) => ft * 0.3048
const psi = (kPa: number) => kPa / 6.894757
const altitude = [
  { what: "pressure at sea level, psi", found: psi(pressureKPa(0)), expected: 14.7, tolerance: 0.12, ...newMexico },
  {
    what: "pressure at 5000 ft, psi",
    found: psi(pressureKPa(metres(5000))),
    expected: 12.28,
    tolerance: 0.12,
    ...newMexico,
  },
  {
    what: "pressure at 10 000 ft, psi",
    found: psi(pressureKPa(metres(10_000))),
    expected: 10.2,
    tolerance: 0.12,
    ...newMexico,
  },
  {
    what: "volume of gas at 5000 ft to sea level",
    found: gasExpansion(metres(5000)),
    expected: 1.1971,
    tolerance: 0.01,
    ...newMexico,
  },
  {
    what: "water boils at 7500 ft, °F",
    found: cToF(boilingPointC(metres(7500))),
    expected: 198,
    tolerance: 1.5,
    source: "USDA FSIS, High Altitude Cooking, quoted",
    seen: "secondary",
    url: "https://pipesmagazine.com/forums/threads/cant-find-taste.66960/post-35880677",
  },
  {
    what: "water boils at sea level, °C",
    found: boilingPointC(0),
    expected: 100,
    tolerance: 0.05,
    source: "definition of the boiling point at 101.325 kPa",
    seen: "memory",
  },
  {
    what: "yeast to leave out at 6000 ft",
    found: yeastToLeaveOut(metres(6000)).high,
    expected: 0.25,
    tolerance: 0.05,
    source: "Colorado extension, answer 329463",
    seen: "primary",
    url: "https://ask.extension.org/questions/329463",
  },
]
test.each(altitude)("$what: $source ($seen)", ({ found, expected, tolerance }) => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance)
})

const homeBaking = {
  source: "Home Baking Association, Temperatures for yeast bread production",
  seen: "primary",
  url: "https://studylib.net/doc/8146258/temperatures-for-yeast-bread-production",
}
const inside = [
  {
    what: "the least inside a baked loaf, °F",
    found: cToF(bakedInsideC({ enriched: false, altitudeM: 0 }).low),
    expected: 200,
    tolerance: 0.01,
    ...homeBaking,
  },
  {
    what: "the most inside a baked loaf, °F",
    found: cToF(bakedInsideC({ enriched: false, altitudeM: 0 }).high),
    expected: 210,
    tolerance: 0.01,
    ...homeBaking,
  },
  {
    what: "the least inside an enriched loaf, °F",
    found: cToF(bakedInsideC({ enriched: true, altitudeM: 0 }).low),
    expected: 190,
    tolerance: 0.01,
    source: "test bakes of a flour company",
    seen: "primary",
  },
  { what: "where yeast is destroyed, °F", found: cToF(yeastDiesC), expected: 140, tolerance: 1, ...homeBaking },
  {
    what: "where baker's yeast stops growing, our limit for water, °C",
    found: hottestWaterC,
    expected: 45.4,
    tolerance: 0.5,
    source: "Salvadó et al. 2011, Appl Environ Microbiol 77:2292, abstract",
    seen: "primary",
    url: "https://pmc.ncbi.nlm.nih.gov/articles/PMC3067424",
  },
]
test.each(inside)("$what: $source ($seen)", ({ found, expected, tolerance }) => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance)
})
