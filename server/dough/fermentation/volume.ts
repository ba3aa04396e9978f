import type { Share } from "../amounts.ts"

/** How many times its starting volume a dough has. Throws RangeError for volumes that are not above 0. */
export function expansionRatio({ startMl, nowMl }: { startMl: number; nowMl: number }): number {
  return above0("a volume", nowMl) / above0("a volume", startMl)
}

/**
 * Density of a wheat dough without any gas, g/ml. The method is that of Campbell, Rielly, Fryer & Sadd 1993, Cereal
 * Chem 70:517; the figure, good to ± 0.05, is from memory, not checked against the page.
 */
export const gasFreeDoughGPerMl = 1.25

/**
 * The share of a dough's volume that is gas: 1 − ρ/ρ without gas (definition of Campbell et al. 1993). Throws
 * RangeError for a dough that is denser than without gas.
 */
export function voidFraction(doughGPerMl: number, gasFreeGPerMl = gasFreeDoughGPerMl): Share {
  const fraction = 1 - above0("a density", doughGPerMl) / above0("a density", gasFreeGPerMl)
  if (fraction < 0) throw new RangeError(`${doughGPerMl} g/ml is denser than dough without gas, ${gasFreeGPerMl} g/ml`)
  return fraction
}

/** Millilitres per gram, of a dough, a loaf or a crumb. Throws RangeError for amounts that are not above 0. */
export function specificVolume({ volumeMl, massG }: { volumeMl: number; massG: number }): number {
  return above0("a volume", volumeMl) / above0("a mass", massG)
}

/**
 * A loaf's volume, ml, by seed displacement: the seed that fills the box alone less what fills it round the loaf.
 * Source: the procedure of AACC 10-05.01 and of USDA Commercial Item Description A-A-20126F, 6.6.2, on a loaf that has
 * cooled for two hours. Throws RangeError when the loaf displaces nothing.
 */
export function displacedMl({
  seedAloneMl,
  seedRoundLoafMl,
}: {
  seedAloneMl: number
  seedRoundLoafMl: number
}): number {
  if (!(seedRoundLoafMl >= 0)) throw new RangeError(`${seedRoundLoafMl} ml of seed round the loaf`)
  return above0("what the loaf displaces", seedAloneMl - seedRoundLoafMl)
}

/**
 * Density of a bread's crumb, kg/m³, at a porosity: 979 − 9.90·e with e in per cent (Zanoni, Peri & Gianotti 1995, J
 * Food Eng 26:497, abstract). Throws RangeError for a share outside 0..0.98, where the line gives no bread.
 */
export function crumbDensity(porosity: Share): number {
  if (!(porosity >= 0 && porosity <= 0.98)) throw new RangeError(`${porosity} is not the porosity of a crumb`)
  return 979 - 990 * porosity
}

/**
 * The porosity of a crumb of this density, kg/m³: the inverse of crumbDensity. Throws RangeError above 979 kg/m³ or at
 * 0.
 */
export function crumbPorosity(densityKgPerM3: number): Share {
  const porosity = (979 - above0("a density", densityKgPerM3)) / 990
  if (porosity < 0) throw new RangeError(`no crumb weighs ${densityKgPerM3} kg/m³`)
  return porosity
}

/**
 * Carbon dioxide from fermented glucose, g: two of CO2 from each of C6H12O6 (Gay-Lussac; molar masses 44.009 and
 * 180.156 g/mol, IUPAC's atomic weights, from memory). Throws RangeError for glucose that is not above 0.
 */
export const carbonDioxideG = (glucoseG: number): number => (above0("glucose", glucoseG) * 2 * 44.009) / 180.156

/**
 * The volume of carbon dioxide, ml, at a temperature, °C, and a pressure, kPa, of the ideal gas; R = 8.314463 J/(mol
 * K), CODATA 2018, from memory. Dissolved gas is not taken off. Throws RangeError for a mass or a pressure that is not
 * above 0.
 */
export function carbonDioxideMl(massG: number, doughC: number, pressureKPa = 101.325): number {
  const mol = above0("a mass", massG) / 44.009
  return (
    (1000 * mol * 8.314463 * above0("a temperature above absolute zero", doughC + 273.15)) /
    above0("a pressure", pressureKPa)
  )
}

function above0(what: string, value: number) {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new RangeError(`${what} must be above 0, not ${value}`)
  return value
}
