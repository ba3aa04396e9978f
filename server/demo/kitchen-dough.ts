import { yeastGrowthPerHour } from "../dough/fermentation/growth.ts"
import { levainShare } from "./tin-loaf.ts"

/** `mixedC` is the dough's temperature after mixing; `vigour` 1 for an ordinary levain, 0.3 for a neglected one. */
export type Kitchen = { roomC: number; mixedC: number; vigour?: number }

// A covered bowl with two loaves' dough comes halfway to the room in about an hour and three quarters. Our own guess.
const settlingHours = 2.5
// Gas for each doubling of the culture, and what a dough can hold: a sourdough's usual values in our own model.
const activity = 1.06
const mostRise = 0.8

/**
 * A dough as it would behave in this kitchen, so that every reading of the demo fits every other one. Temperature by
 * Newton's law toward the room, `hours` after mixing. Rise, a share gained between two such moments: the levain's culture
 * grows back logistically at the dough's own temperature, and the dough keeps its gas ever less well.
 */
export function doughIn({ roomC, mixedC, vigour = 1 }: Kitchen) {
  const doughC = (hours: number) => roomC + (mixedC - roomC) * Math.exp(-hours / settlingHours)

  function rise(fromHours: number, toHours: number) {
    const steps = 200
    const stepHours = (toHours - fromHours) / steps
    let growth = 0
    for (let i = 0; i < steps; i++) growth += yeastGrowthPerHour(doughC(fromHours + (i + 0.5) * stepHours)) * stepHours
    const gas = Math.log(1 + levainShare * (Math.exp(growth) - 1))
    return mostRise * (1 - Math.exp((-activity * vigour * gas) / mostRise))
  }

  return { doughC, rise }
}
