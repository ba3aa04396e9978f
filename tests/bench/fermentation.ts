/**
 * How long the fermentation functions take, each as a ratio to a plain loop over the same 100 readings that reckons rate, gas and
 * rise once for each: a ratio means the same on a slow machine. Run by `npm run bench`; no test, as
 * nothing in the tests may depend on time.
 */
import { activityOf, classPrior } from "../../server/dough/fermentation/activity.ts"
import { fitDough, riseAfter, usualPrior } from "../../server/dough/fermentation/dough-fit.ts"
import { rate } from "../../server/dough/fermentation/growth.ts"
import type { Leaven } from "../../server/dough/fermentation/leaven.ts"
import { predictReady } from "../../server/dough/fermentation/prediction.ts"
import { ratioReadyAt, shareReadyAt, temperatureReadyAt } from "../../server/dough/fermentation/ready-at.ts"
import { referenceHours } from "../../server/dough/fermentation/reference-hours.ts"
import { fitGompertz, fitLogistic } from "../../server/dough/fermentation/rise-curve.ts"
import { type CurvePoint, doughCurve } from "../../server/dough/fermentation/temperature-curve.ts"
import { microseconds } from "./timing.ts"

const start = Date.UTC(2025, 2, 8, 8)
const at = (hours: number) => new Date(start + hours * 3_600_000)
const hundred = Array.from({ length: 100 }, (_, index) => index)

// A sourdough tin loaf: a fifth of the flour from the levain, 23 to 25 °C, read every three minutes for five hours.
const leaven: Leaven = { culture: "sourdough", share: 0.2 }
const prior = usualPrior("sourdough")
const dough = { activity: 1.2, mostRise: 0.75, lagHours: 0.2 }
const curve = hundred.map((i): CurvePoint => ({ at: at(i / 20), doughC: 24 + Math.sin(i / 15), known: "measured" }))
const readings = hundred.map((i) => ({
  hours: i / 20,
  rise: riseAfter(leaven, dough, i / 20) + 0.02 * Math.sin(i * i),
  sd: 0.03,
}))
const rises = readings.map(({ hours, rise, sd }) => ({ at: at(hours), rise, sd }))
const now = at(5)
const question = {
  leaven,
  startsAt: at(0),
  now,
  curve,
  rises,
  targetRise: 0.5,
  surroundings: { surroundingsC: 21, tauHours: 2 },
}
const planned = doughCurve([{ at: at(0), doughC: 24 }], [{ startsAt: at(0), endsAt: at(12) }])
const wish = { startsAt: at(0), readyAt: at(6), targetRise: 0.5 }
const activities = hundred.slice(0, 20).map(() => activityOf([{ leaven, readings: readings.slice(60, 65) }], prior))

function plainLoop() {
  let sum = 0
  for (const { hours } of readings) sum += riseAfter(leaven, dough, hours * rate(23 + hours / 5))
  return sum
}

const functions: Record<string, () => unknown> = {
  "a prediction from 100 readings": () => predictReady(question),
  "the fit of 100 readings": () => fitDough(leaven, readings, prior),
  "reference hours over 100 readings": () => referenceHours(curve, at(0), curve.at(-1)!.at),
  "a dough's curve through a night in the fridge": () =>
    doughCurve([{ at: at(0), doughC: 25 }], [{ startsAt: at(0), endsAt: at(12), cold: true, surroundingsC: 4 }]),
  "the share that is ready at a time": () => shareReadyAt({ ...wish, culture: "sourdough", curve: planned }),
  "the ratio that is ready at a time": () =>
    ratioReadyAt({ ...wish, curve: planned, starterHydration: 1, hydration: 1 }),
  "the temperature that is ready at a time": () => temperatureReadyAt({ ...wish, leaven }),
  "a leaven's activity from ten bakes of five readings": () =>
    activityOf(Array(10).fill({ leaven, readings: readings.slice(60, 65) }), prior),
  "what a class of twenty teaches": () => classPrior(activities, prior),
  "a Gompertz curve through 20 readings": () => fitGompertz(readings.filter((_, i) => i % 5 === 0)),
  "a logistic curve through 20 readings": () => fitLogistic(readings.filter((_, i) => i % 5 === 0)),
}

const loopUs = microseconds(plainLoop)
console.log(`a plain loop over 100 readings: ${loopUs.toFixed(1)} µs of processor time`)
for (const [name, run] of Object.entries(functions)) {
  const us = microseconds(run)
  console.log(`${name}: ${us.toFixed(0)} µs, ${(us / loopUs).toFixed(1)} times the loop`)
}
