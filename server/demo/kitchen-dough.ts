import { culturePerHour } from "../dough/fermentation/growth.ts"
import { riseFrom } from "../dough/fermentation/rise.ts"
import { levainGas, usualSourdough } from "../dough/fermentation/sourdough-rise.ts"
import { levainShare } from "./tin-loaf.ts"

/** `mixedC` is the dough's temperature after mixing; `vigour` 1 for an ordinary levain, 0.3 for a neglected one. */
export type Kitchen = { roomC: number; mixedC: number; vigour?: number }

// A covered bowl with two loaves' dough comes halfway to the room in about an hour and three quarters. Our own guess.
const settlingHours = 2.5

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
    for (let i = 0; i < steps; i++) growth += culturePerHour(doughC(fromHours + (i + 0.5) * stepHours)) * stepHours
    const { activity, mostRise } = usualSourdough
    return riseFrom(levainGas(levainShare, growth), { activity: activity * vigour, mostRise })
  }

  return { doughC, rise }
}
