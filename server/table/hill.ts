import { wellBand } from "../dough/verdict/hypotheses.ts"
import type { Verdict } from "../dough/verdict/verdict.ts"

type Called = Exclude<Verdict, { call: "not enough to say" }>

/** `beyond`: the hill's middle lies farther out than the line shows, so it stands at the end of it. */
export type Hill = { points: [x: number, y: number][]; band: { x: number; width: number }; beyond?: "under" | "over" }

const hillWidth = 200
const hillHeight = 46
// Log progress at the ends of the line: from a third to three times what was intended.
const end = Math.log(3)
// The density that fills the height: that of a hill 0.1 wide, as sure as a verdict gets.
const steepest = 4

/**
 * The verdict as a hill over one line: log progress to the right, the density as height. Every hill has the same area, so
 * a wide one is low. x from 0 to `hillWidth`, y downward to `hillHeight`.
 */
export function drawHill({ mean, hill }: Pick<Called, "mean" | "hill">): Hill {
  const x = (progress: number) => ((progress + end) / (2 * end)) * hillWidth
  const middle = Math.min(Math.max(mean, -end), end)
  const points = hill
    .map(({ progress, density }) => ({ at: progress + middle - mean, density }))
    .filter(({ at }) => Math.abs(at) <= end)
    .map(({ at, density }): [number, number] => [
      x(at),
      hillHeight - Math.min(1, density / steepest) * (hillHeight - 4),
    ])
  return {
    points: [[0, hillHeight], ...points, [hillWidth, hillHeight]],
    band: { x: x(-wellBand), width: x(wellBand) - x(-wellBand) },
    beyond: middle === mean ? undefined : mean < 0 ? "under" : "over",
  }
}
