import { type Running, readyElsewhere } from "../dough/fermentation/elsewhere.ts"
import { usualRetardC } from "../dough/fermentation/end-points.ts"
import type { Question, Time } from "../dough/fermentation/prediction.ts"
import { settlingHours } from "../dough/fermentation/temperature-doubt.ts"

export type Place = "cooler" | "warmer" | "fridge"
/** Where the dough could go now, at so many °C, and when it would be ready there. */
export type Option = { place: Place; atC: number; time: Time }

/** How much cooler or warmer another place of a home is, °C, and the limits of what homes have. Our own judgement. */
const stepC = 4
const coolestC = 14
const warmestC = 30

/** What could be done about a dough that runs ahead of its plan or behind it; what would hardly change its time is left out. */
export function optionsFor(running: Running, question: Question, here: Extract<Time, { kind: "ready" }>): Option[] {
  if (running.kind === "on plan") return []
  const nowC = question.surroundings?.surroundingsC ?? question.curve.at(-1)!.doughC
  const coolerC = Math.round(nowC - stepC)
  const warmerC = Math.min(warmestC, Math.round(nowC + stepC))
  const places: [Place, number][] =
    running.kind === "ahead"
      ? [...(coolerC >= coolestC ? [["cooler", coolerC] satisfies [Place, number]] : []), ["fridge", usualRetardC]]
      : [["warmer", warmerC]]
  return places
    .map(([place, atC]) => {
      const time = readyElsewhere(question, { surroundingsC: atC, tauHours: settlingHours })
      return { place, atC, time }
    })
    .filter(({ time }) => time.kind === "not in sight" || Math.abs(+time.readyAt - +here.readyAt) > leastMs)
}
// What changes the time by less is not worth moving a bowl for. Our own judgement.
const leastMs = 10 * 60_000
