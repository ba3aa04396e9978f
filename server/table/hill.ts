import { type Verdict, wellBand } from "../dough/verdict/first.ts"

type Called = Exclude<Verdict, { call: "not enough to say" }>

/** `beyond`: the hill's middle lies farther out than the line shows, so it stands at the end of it. */
export type Hill = { points: [x: number, y: number][]; band: { x: number; width: number }; beyond?: "under" | "over" }

const hillWidth = 200
const hillHeight = 46
// Log progress at the ends of the line: from a third to three times what was intended.
const end = Math.log(3)
// So that the surest verdict there can be, from all evidence in agreement, fills the height.
const surestSd = 0.12

/**
 * The verdict as a hill over one line: log progress to the right, the density as height. Every hill has the same area, so
 * a wide one is low. x from 0 to `hillWidth`, y downward to `hillHeight`.
 */
export function drawHill({ mean, sd }: Called): Hill {
  const x = (progress: number) => ((progress + end) / (2 * end)) * hillWidth
  const middle = Math.min(Math.max(mean, -end), end)
  const height = Math.min(1, surestSd / sd) * (hillHeight - 4)
  const points = Array.from({ length: 97 }, (_, step): [number, number] => {
    const progress = -end + (2 * end * step) / 96
    return [x(progress), hillHeight - height * Math.exp(-0.5 * ((progress - middle) / sd) ** 2)]
  })
  return {
    points: [[0, hillHeight], ...points, [hillWidth, hillHeight]],
    band: { x: x(-wellBand), width: x(wellBand) - x(-wellBand) },
    beyond: middle === mean ? undefined : mean < 0 ? "under" : "over",
  }
}
