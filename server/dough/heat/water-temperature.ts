/**
 * Water temperature by the multiplier method: n·(wanted dough) − the sum of the other temperatures − friction, n counting
 * the water itself: 3 for room, flour and water, 4 with a levain. `frictionC` is a difference, not a temperature: 8 °F of
 * friction are 4.4 °C. Source: T. Lehmann, Pizza Today, June 2018; common practice.
 */
export function multiplierWaterC({
  doughC,
  othersC,
  frictionC,
}: {
  doughC: number
  othersC: number[]
  frictionC: number
}) {
  return (othersC.length + 1) * doughC - sum(othersC) - frictionC
}

/**
 * The friction factor of an earlier dough, °C: n times what it came out at, less all n temperatures, the water's among
 * them. Below 0 when the dough lost more heat to a cold bowl than kneading gave. Source: T. Lehmann, PMQ, spring 2003.
 */
export function frictionC({ doughC, waterC, othersC }: { doughC: number; waterC: number; othersC: number[] }) {
  return (othersC.length + 1) * doughC - sum(othersC) - waterC
}

/**
 * The friction factor of a dough that kneading warms by `riseC`, for n temperatures. (wanted − rise)·n − the others is the
 * same method written otherwise (L. Geißler, baeckerlatein.de, entry Teigtemperatur).
 */
export const frictionOfRise = ({ terms, riseC }: { terms: number; riseC: number }) => terms * riseC

/**
 * Water from a French base temperature, the sum of room, flour and water that a baker knows to suit a dough:
 * base − room − flour. Source: common practice of French bakeries; encyclopaedia article “Température de base”.
 */
export const waterFromBaseC = ({ baseC, roomC, flourC }: { baseC: number; roomC: number; flourC: number }) =>
  baseC - roomC - flourC

/** The base temperature that stands for a wanted dough and its friction: n·dough − friction with n = 3. See waterFromBaseC. */
export const baseC = ({ doughC, frictionC }: { doughC: number; frictionC: number }) => 3 * doughC - frictionC

const sum = (temperatures: number[]) => temperatures.reduce((total, one) => total + one, 0)
