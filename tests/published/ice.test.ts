import { expect, test } from "vitest"
import { iceOnTopG, iceShare, iceSpecificHeat, meltingKJPerKg } from "../../server/dough/heat/ice.ts"
import { specificHeats } from "../../server/dough/heat/specific-heat.ts"
import { fToC } from "../../server/dough/units.ts"

const ofTable = {
  tolerance: 0.006,
  source: "Koerner Co. (bakery supply house), ice table",
  seen: "primary",
  url: "http://www.koerner-co.com/pages.php?pID=12&CDpath=0",
}
const tapsF = [32, 40, 50, 60, 70, 80]
/** The water wanted, °F, and below each tap the pounds of ice per pound of water that the table prints. */
const printed: [wantedF: number, ...iceBelowTap: (number | null)[]][] = [
  [75, null, null, null, null, null, 0.026],
  [70, null, null, null, null, null, 0.052],
  [65, null, null, null, null, 0.027, 0.077],
  [60, null, null, null, null, 0.054, 0.103],
  [55, null, null, null, 0.028, 0.081, 0.129],
  [50, null, null, null, 0.057, 0.109, 0.155],
  [45, null, null, 0.03, 0.086, 0.141, 0.181],
  [40, null, null, 0.061, 0.115, 0.163, 0.206],
  [35, null, 0.03, 0.087, 0.143, 0.19, 0.232],
  [30, 0.014, 0.065, 0.122, 0.172, 0.217, 0.258],
  [25, 0.049, 0.098, 0.152, 0.201, 0.245, 0.288],
  [20, 0.083, 0.13, 0.183, 0.23, 0.272, 0.309],
  [15, 0.118, 0.163, 0.213, 0.258, 0.298, 0.336],
  [10, 0.153, 0.195, 0.244, 0.287, 0.326, 0.361],
  [5, 0.187, 0.228, 0.274, 0.316, 0.353, 0.387],
  [0, 0.222, 0.26, 0.305, 0.345, 0.38, 0.416],
  [-5, 0.257, 0.292, 0.335, 0.373, 0.407, 0.443],
  [-10, 0.291, 0.325, 0.366, 0.402, 0.44, 0.469],
  [-15, 0.326, 0.357, 0.396, 0.43, 0.467, 0.495],
  [-20, 0.361, 0.39, 0.427, 0.465, 0.495, 0.521],
  [-25, 0.396, 0.422, 0.457, 0.494, 0.522, 0.547],
  [-30, 0.43, 0.455, 0.494, 0.523, 0.549, 0.573],
]
const iceTable = printed.flatMap(([wantedF, ...cells]) =>
  tapsF.flatMap((tapF, column) => {
    const expected = cells[column]
    return expected == null
      ? []
      : [{ ...ofTable, what: `ice in water, tap ${tapF} °F, wanted ${wantedF} °F`, tapF, wantedF, expected }]
  }),
)
test.each(iceTable)("$what: $source ($seen)", ({ tapF, wantedF, expected, tolerance }) => {
  const share = iceShare({ tapC: fToC(tapF), wantedC: fToC(wantedF), iceC: 0 })
  expect(Math.abs(share - expected)).toBeLessThanOrEqual(tolerance)
})

const bothScales = [
  {
    what: "the share in °C, tap 80 °F, wanted 40 °F, is (80 − 40)/(80 + 112)",
    tapF: 80,
    wantedF: 40,
    expected: 0.2083,
    tolerance: 0.0005,
    source: "heat balance; reproduces the table of Koerner Co.",
    seen: "secondary",
  },
]
test.each(bothScales)("$what: $source ($seen)", ({ tapF, wantedF, expected, tolerance }) => {
  const share = iceShare({ tapC: fToC(tapF), wantedC: fToC(wantedF), iceC: 0 })
  expect(Math.abs(share - expected)).toBeLessThanOrEqual(tolerance)
  expect(Math.abs(share - (tapF - wantedF) / (tapF + 112))).toBeLessThanOrEqual(tolerance)
})

const constants = [
  {
    what: "latent heat of melting, kJ/kg",
    found: meltingKJPerKg,
    expected: 335,
    tolerance: 1.5,
    source: "Earle, Unit Operations in Food Processing, App. 7 (NZIFST)",
    seen: "primary",
    url: "https://nzifst.org.nz/resources/unitoperations/appendix7.htm",
  },
  {
    what: "the 112 of the formula in °F: 144 Btu/lb less 32",
    found: (meltingKJPerKg / specificHeats.water) * 1.8 - 32,
    expected: 112,
    tolerance: 0.15,
    source: "reproduces the table of Koerner Co.",
    seen: "secondary",
  },
  {
    what: "specific heat of ice at −20 °C, kJ/(kg K)",
    found: iceSpecificHeat(-20),
    expected: 1.958,
    tolerance: 0.005,
    source: "Geankoplis, App. A.4-1",
    seen: "primary",
    url: "https://www.safaribooksonline.com/library/view/transport-processes-and/013101367X/013101367X_app04.html",
  },
  {
    what: "specific heat of ice near melting, kJ/(kg K)",
    found: iceSpecificHeat(-5),
    expected: 2.05,
    tolerance: 0.02,
    source: "Earle, Unit Operations in Food Processing, App. 7 (NZIFST), water below freezing",
    seen: "primary",
    url: "https://nzifst.org.nz/resources/unitoperations/appendix7.htm",
  },
]
test.each(constants)("$what: $source ($seen)", ({ found, expected, tolerance }) => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance)
})

/** Prints 4.4 kg for ice in place of water, which is what holds for ice on top of it. */
const replacedOrOnTop = [
  {
    what: "40 kg of water from 20 to 10 °C: 4.00 kg in place of water, not the printed 4.4",
    expected: 4.0,
    misprint: 4.4,
    tolerance: 0.005,
    source: "D. Argyriou, trade article on ice in dough",
    seen: "secondary",
    url: "https://www.linkedin.com/pulse/simple-calculation-dimitrios-argyriou-aux8f",
  },
]
test.each(replacedOrOnTop)("$what: $source ($seen)", ({ expected, misprint, tolerance }) => {
  const replacedKg = 40 * iceShare({ tapC: 20, wantedC: 10, iceC: 0 })
  const onTop = iceOnTopG({ massG: 40_000, kJPerKgK: specificHeats.water, fromC: 20, toC: 10, iceC: 0 })
  expect(Math.abs(replacedKg - expected)).toBeLessThanOrEqual(tolerance)
  expect(Math.abs(onTop / 1000 - misprint)).toBeLessThanOrEqual(0.05)
})

/** Adds 2.108·18 + 334 + 4.187·20 up to 454.064 instead of 455.684 J/g, and so prints 1383 g. */
const onTopOfWater = [
  {
    what: "ice at −18 °C on top of 30 kg from 25 to 20 °C: 1378 g, not the printed 1383",
    expected: 1378,
    misprint: 1383,
    tolerance: 1,
    source: "a bakery's question in an electronics forum, 2018",
    seen: "primary",
    url: "http://forum.arduino.cc/index.php?topic=522736.msg3564642",
  },
]
test.each(onTopOfWater)("$what: $source ($seen)", ({ expected, misprint, tolerance }) => {
  const g = iceOnTopG({ massG: 30_000, kJPerKgK: specificHeats.water, fromC: 25, toC: 20, iceC: -18 })
  expect(Math.abs(g - expected)).toBeLessThanOrEqual(tolerance)
  expect(Math.abs(g - misprint)).toBeGreaterThan(3)
})
