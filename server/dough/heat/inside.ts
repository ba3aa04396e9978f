import type { Range } from "../amounts.ts"
import { fToC } from "../units.ts"
import { boilingPointC } from "./altitude.ts"

/** Yeast is dead at this temperature, °C: 140 °F (Home Baking Association, “Temperatures for yeast bread production”). */
export const yeastDiesC = fToC(140)

/**
 * The temperature inside a baked loaf, °C: 200–210 °F (Home Baking Association), and from about 190 °F where the dough
 * holds much butter, egg or sugar (test bakes of a flour company). At an altitude in metres both are lower by as much as
 * water boils lower, which is our own reckoning. Throws RangeError outside −500..11 000 m.
 */
export function bakedInsideC({ enriched, altitudeM }: { enriched: boolean; altitudeM: number }): Range {
  const lowerC = boilingPointC(0) - boilingPointC(altitudeM)
  return { low: fToC(enriched ? 190 : 200) - lowerC, high: fToC(210) - lowerC }
}
