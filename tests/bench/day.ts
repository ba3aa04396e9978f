/**
 * How long a day takes to plan, with what keeps it from fitting and its suggestions where it does not fit: the middle and the
 * worst of three hundred kitchens, each as a ratio to a plain loop that reckons the rate of fermentation a thousand times.
 * Run by `npm run bench`; no test, as nothing in the tests may depend on time.
 */
import fc from "fast-check"
import { planDay } from "../../server/dough/day/plan-day.ts"
import { rate } from "../../server/dough/fermentation/growth.ts"
import { anyQuestion } from "../dough/day/kitchens.ts"
import { microseconds } from "./timing.ts"

function plainLoop() {
  let sum = 0
  for (let i = 0; i < 1000; i++) sum += rate(18 + i / 100)
  return sum
}

const questions = fc.sample(anyQuestion, { numRuns: 300, seed: 6 })
// a hot function is compiled anew several times
for (const question of questions) planDay(question)

/** Milliseconds of processor time, the best of three: on a busy machine one may be held up. */
const spentMs = (run: () => unknown) => Math.min(...[0, 1, 2].map(() => once(run)))
function once(run: () => unknown) {
  const before = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

const loopMs = microseconds(plainLoop) / 1000
const times = questions.map((question) => spentMs(() => planDay(question))).sort((a, b) => a - b)
const said = (name: string, ms: number) => `${name}: ${ms.toFixed(1)} ms, ${(ms / loopMs).toFixed(0)} times the loop`
console.log(`a plain loop of a thousand rates: ${loopMs.toFixed(2)} ms of processor time`)
console.log(said("planning a day, the middle of 300", times[150]!))
console.log(said("planning a day, one in ten takes longer", times[270]!))
console.log(said("planning a day, the worst of 300", times.at(-1)!))
