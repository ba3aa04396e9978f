import { type Running, readyElsewhere } from "../dough/fermentation/elsewhere.ts"
import { usualRetardC } from "../dough/fermentation/end-points.ts"
import type { Question, Time } from "../dough/fermentation/prediction.ts"
import { settlingHours } from "../dough/fermentation/temperature-doubt.ts"

export type Place = "cooler" | "warmer" | "fridge"
/** Where the dough could go now, at so many °C, when it would be ready there, and whether that is worth moving a bowl for. */
export type Option = { place: Place; atC: number; time: Time; hardly: boolean }

/**
 * A cellar or an unheated room, and an oven with only its lamp on, °C; where the dough is nearly as cool or warm already,
 * so much cooler or warmer, as far as a home goes. Our own judgement.
 */
const coolC = 18
const warmC = 27
const stepC = 4
const coolestC = 12
const warmestC = 31

/** What could be done about a dough that runs ahead of its plan or behind it. */
export function optionsFor(running: Running, question: Question, here: Extract<Time, { kind: "ready" }>): Option[] {
  if (running.kind === "on plan") return []
  const nowC = question.surroundings?.surroundingsC ?? question.curve.at(-1)!.doughC
  const coolerC = Math.min(coolC, Math.round(nowC - stepC))
  const warmerC = Math.max(warmC, Math.round(nowC + stepC))
  const cooler: [Place, number][] = coolerC >= coolestC ? [["cooler", coolerC]] : []
  const warmer: [Place, number][] = warmerC <= warmestC ? [["warmer", warmerC]] : []
  const places: [Place, number][] = running.kind === "ahead" ? [...cooler, ["fridge", usualRetardC]] : warmer
  return places.map(([place, atC]) => {
    const time = readyElsewhere(question, { surroundingsC: atC, tauHours: settlingHours })
    return { place, atC, time, hardly: time.kind === "ready" && Math.abs(+time.readyAt - +here.readyAt) < leastMs }
  })
}
// Our own judgement.
const leastMs = 10 * 60_000
