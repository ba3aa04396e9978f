/** Who raises the dough: a levain's wild yeast, or baker's yeast from the packet. */
export type Culture = "sourdough" | "baker's yeast"

/** Progress is told in hours at this dough temperature, an ordinary kitchen's. Our own choice. */
export const referenceC = 24

/**
 * How many reference hours pass in one hour at this dough temperature, in °C; 1 at `referenceC`. Throws RangeError
 * outside −5..60 °C.
 *
 * Sourdough goes by its culture, see culturePerHour; baker's yeast, which hardly grows in a dough, by its gas.
 */
export function rate(doughC: number, culture: Culture = "sourdough"): number {
  return speed(culture, doughC) / speedAtReference[culture]
}

const speed = (culture: Culture, doughC: number) =>
  culture === "sourdough" ? culturePerHour(doughC) : cardinalShare(doughC, saccharomycesGas)

/**
 * How fast a sourdough culture works, 1/h: as its yeast grows, up to 28 °C, where yeast grows best in dough; held from
 * there to the lactobacilli's best, 33 °C, and then falling as their growth does, to 0 at 41 °C. Throws RangeError
 * outside −5..60 °C.
 *
 * That growth, gas and ripeness go together is an assumption: Brandt, Hammes & Gänzle 2004, Eur Food Res Technol
 * 218:333, abstract, found ethanol and CO2 to follow growth on the whole. Above its best the yeast grows more slowly,
 * but what there is of it works on, and the lactobacilli, which make CO2 too, get faster; that the two make up for each
 * other is our own judgement. It agrees with what bakers told of a dough at 29 °C, and not with a dough that ferments
 * less at 32 than at 20 °C, as the yeast's growth alone would have it.
 */
export function culturePerHour(doughC: number): number {
  if (doughC <= heldFromC) return growthPerHour("K. humilis", doughC)
  const held = growthPerHour("K. humilis", heldFromC)
  const { bestC, bestPerHour } = organisms["L. sanfranciscensis"]
  return doughC <= bestC ? held : (held * growthPerHour("L. sanfranciscensis", doughC)) / bestPerHour
}
// The yeast's best in rye dough: Brandt, Hammes & Gänzle 2004, abstract.
const heldFromC = 28

/**
 * Growth rate of a sourdough organism, 1/h, at a dough temperature in °C; 0 from its highest temperature on. μ(T) =
 * μopt·[(x/xo)·e^(1 − x/xo)]^b with x = Tmax − T, xo = Tmax − Topt. Throws RangeError outside −5..60 °C.
 *
 * The form is our own parametrisation; μopt and b are fitted to eight rows (2–20 °C) of M. Gänzle's table in the
 * rec.food.sourdough FAQ no. 37, which were written down from memory, not checked against the page. Above 20 °C it is
 * our curve, not a published one. Only ratios between temperatures carry over from broth to dough. Near the freezing
 * point the table grows slowly where FAQ no. 39 says "no growth": a retard is known only roughly.
 */
export function growthPerHour(organism: Organism, doughC: number): number {
  checkDoughC(doughC)
  const { bestPerHour, bestC, maxC, steepness } = organisms[organism]
  if (doughC >= maxC) return 0
  const x = (maxC - doughC) / (maxC - bestC)
  return bestPerHour * (x * Math.exp(1 - x)) ** steepness
}
export type Organism = keyof typeof organisms

// K. humilis was C. milleri. Its best 27 °C: Gänzle, Ehmann & Hammes 1998, Appl Environ Microbiol 64:2616, abstract;
// its end 36 °C, because Brandt, Hammes & Gänzle 2004, Eur Food Res Technol 218:333, abstract, find it inhibited at 35
// °C. The lactobacilli's best 32–33 °C and end 41 °C: M. Gänzle, rec.food.sourdough FAQ no. 39.
const organisms = {
  "K. humilis": { bestPerHour: 0.418, bestC: 27, maxC: 36, steepness: 3.07 },
  "L. sanfranciscensis": { bestPerHour: 0.665, bestC: 33, maxC: 41, steepness: 1.55 },
}

/** The temperatures, °C, between which an organism works, and where it works best. */
export type Cardinals = { minC: number; bestC: number; maxC: number }

/**
 * Rate as a share of the best, 0..1, by the cardinal temperature model with inflection; 0 outside minC..maxC. Throws
 * RangeError outside −5..60 °C, or for a best temperature that is not in the warmer half, where the model does not
 * hold.
 *
 * Source: Rosso, Lobry & Flandrois 1993, J Theor Biol 162:447, and Rosso et al. 1995, Appl Environ Microbiol 61:610;
 * the equation as printed in the documentation of the open package rTPC (rosso_1993).
 */
export function cardinalShare(doughC: number, { minC, bestC, maxC }: Cardinals): number {
  checkDoughC(doughC)
  if (!(bestC > (minC + maxC) / 2 && bestC < maxC)) throw new RangeError(`${bestC} °C is not in the warmer half`)
  if (doughC <= minC || doughC >= maxC) return 0
  const rise = (bestC - minC) * (doughC - bestC) - (bestC - maxC) * (bestC + minC - 2 * doughC)
  return ((doughC - maxC) * (doughC - minC) ** 2) / ((bestC - minC) * rise)
}

/**
 * Growth of baker's yeast, S. cerevisiae. Source: Salvadó et al. 2011, Appl Environ Microbiol 77:2292, abstract; there
 * the lowest temperature is given only for the genus, as 1.3–4.3 °C, and 2.8 °C is the middle of it: a placeholder.
 */
export const saccharomycesGrowth: Cardinals = { minC: 2.8, bestC: 32.3, maxC: 45.4 }

/**
 * Gas from baker's yeast. It is made fastest at 32–40 °C ("The science of fermentation", bake, bakemag.com), in a
 * textbook's words about 36–39 °C, warmer than growth; the ends are those of growth. That the same form holds for gas
 * is our assumption; it gives 6–8 % more per °C at 24–27 °C, where the trade reckons with about 10 (the same article).
 */
const saccharomycesGas: Cardinals = { ...saccharomycesGrowth, bestC: 36 }

/** Throws RangeError for a temperature that no dough has. Our own limits, wide on purpose. */
export function checkDoughC(doughC: number) {
  if (!(doughC >= coldestC && doughC <= 60)) throw new RangeError(`a dough is between −5 and 60 °C, not ${doughC} °C`)
}
const coldestC = -5

const speedAtReference: Record<Culture, number> = {
  sourdough: speed("sourdough", referenceC),
  "baker's yeast": speed("baker's yeast", referenceC),
}

/**
 * The temperatures between which a culture works, and the lowest at which it works best; a sourdough's curve has no lower
 * end but a dough's own.
 */
export const worksBetween: Record<Culture, Cardinals> = {
  sourdough: { minC: coldestC, bestC: organisms["K. humilis"].bestC, maxC: organisms["L. sanfranciscensis"].maxC },
  "baker's yeast": saccharomycesGas,
}

/** Where a culture's rate bends, in °C, ascending: between two of them it is smooth. */
export const bends: Record<Culture, number[]> = {
  sourdough: [heldFromC, organisms["L. sanfranciscensis"].bestC],
  "baker's yeast": [],
}
