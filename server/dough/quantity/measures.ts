import Fraction from "fraction.js"
import type { Measures } from "./reading.ts"

export type MassUnit = "mg" | "g" | "dag" | "kg" | "oz" | "lb"
export type MetricVolume = "ml" | "cl" | "dl" | "l"
export type KitchenVolume = "tsp" | "dsp" | "tbsp" | "fl oz" | "gill" | "cup" | "pint" | "quart" | "gallon"
/** A person's measures, or those named on one line: an Australian tablespoon holds 20 ml; "eu" says it of an egg. */
export type System = Measures | "australian" | "eu"

/** For a settings page: which cup, spoon and pint somebody means. */
export const measureNames: Record<Measures, string> = {
  us: "US customary: cup of 237 ml, tablespoon of 14.8 ml",
  "us-label": "US food labels: cup of 240 ml, tablespoon of 15 ml",
  metric: "Metric: cup of 250 ml, tablespoon of 15 ml",
  imperial: "Imperial: pint of 568 ml, cup of 284 ml, tablespoon of 15 ml",
}

export const systemWords: Record<System, string> = {
  us: "US",
  "us-label": "US label",
  metric: "metric",
  imperial: "imperial",
  australian: "Australian",
  eu: "metric",
}

/** Grams. The international pound is exact: NIST Handbook 44, Appendix C; NIST SP 811, Appendix B. */
export const gramsPerPound = 453.59237
/** Grams of its sixteenth, the avoirdupois ounce. */
export const gramsPerOunce = gramsPerPound / 16

const pound = new Fraction("453.59237")
/** Exact grams of a unit of mass. */
export const gramsOf: Record<MassUnit, Fraction> = {
  mg: new Fraction(1, 1000),
  g: new Fraction(1),
  dag: new Fraction(10),
  kg: new Fraction(1000),
  oz: pound.div(16),
  lb: pound,
}

const metricMl: Record<MetricVolume, Fraction> = {
  ml: new Fraction(1),
  cl: new Fraction(10),
  dl: new Fraction(100),
  l: new Fraction(1000),
}

/** How many of each unit a gallon of 4 quarts, 8 pints, 16 cups... holds: NIST SP 430, table 1; dsp: common practice. */
const perGallon = { gallon: 1, quart: 4, pint: 8, cup: 16, gill: 32, "fl oz": 128, tbsp: 256, dsp: 384, tsp: 768 }
const inGallons = (gallonMl: Fraction) =>
  Object.fromEntries(Object.entries(perGallon).map(([unit, count]) => [unit, gallonMl.div(count)]))

// Spoons of 15, 10 and 5 ml are what is sold and used wherever cups are metric, and in the UK today: UK Metric
// Association, "Kitchen utensil names in recipes" (metricviews.uk, 2023); NBS SP 430 (1975) for metric spoons.
const spoons = { tbsp: new Fraction(15), dsp: new Fraction(10), tsp: new Fraction(5) }
const metric = { cup: new Fraction(250), ...spoons }

// UK Weights and Measures Act 1985, Schedule 1: gallon 4.54609 litres, pint an eighth, gill a quarter of a pint, fluid
// ounce a twentieth (from memory; the same figures were read in Hong Kong's ordinance of that origin). An imperial cup is
// no legal unit: half a pint, common practice.
const imperialPint = new Fraction("4546.09").div(8)
const imperial = {
  gallon: imperialPint.mul(8),
  quart: imperialPint.mul(2),
  pint: imperialPint,
  cup: imperialPint.div(2),
  gill: imperialPint.div(4),
  "fl oz": imperialPint.div(20),
  ...spoons,
}

const kitchenMl: Record<System, Partial<Record<KitchenVolume, Fraction>>> = {
  // the US gallon is 231 in³, an inch 25.4 mm: NIST Handbook 44, Appendix C; NIST SP 811, Appendix B
  us: inGallons(new Fraction("3785.411784")),
  // 21 CFR 101.9(b)(5)(viii): cup 240, tbsp 15, tsp 5, fl oz 30 ml; the larger ones counted in such cups
  "us-label": inGallons(new Fraction(3840)),
  metric,
  imperial,
  // Standards Association of Australia, as told by NSW Health (healthykids.nsw.gov.au, conversion chart)
  australian: { ...metric, tbsp: new Fraction(20) },
  eu: metric,
}

/** Exact millilitres of a unit; undefined where that system has none, as there is no metric pint. */
export function millilitresOf(unit: KitchenVolume | MetricVolume, system: System): Fraction | undefined {
  if (isMetricVolume(unit)) return metricMl[unit]
  return kitchenMl[system][unit]
}

/** Whether a unit is a litre or a part of one. */
export const isMetricVolume = (unit: string): unit is MetricVolume => Object.hasOwn(metricMl, unit)

// A cup or spoon levelled off by hand is no more exact: our own limit.
const sameWithin = 0.04

/** Other systems in which that unit is clearly another one. */
export function otherSystems(unit: KitchenVolume, system: System): System[] {
  const ml = millilitresOf(unit, system)?.valueOf() ?? 0
  const others: System[] = system === "metric" ? ["us", "imperial", "australian"] : ["us", "metric", "imperial"]
  return others.filter((other) => {
    const otherMl = millilitresOf(unit, other)?.valueOf()
    return other !== system && otherMl !== undefined && Math.abs(otherMl - ml) > sameWithin * ml
  })
}
