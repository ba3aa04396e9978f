import { wellBand } from "../dough/verdict/hypotheses.ts"
import type { Verdict } from "../dough/verdict/verdict.ts"

type Called = Exclude<Verdict, { call: "not enough to say" }>

const [width, height] = [600, 150]
// Log progress at the ends of the line, as under the small hills: from a third to three times what was intended.
const end = Math.log(3)
// The density that fills the height, unless a hill is surer still.
const usualPeak = 3

/** The verdict as one large hill, `path` in a frame of 600 × 150 units; `marks` are words under the line, at per cent of it. */
export function largeHill({ hill }: Pick<Called, "hill">) {
  const shown = hill.filter(({ progress }) => Math.abs(progress) <= end)
  const peak = Math.max(usualPeak, ...shown.map(({ density }) => density))
  const points = shown.map(
    ({ progress, density }): Point => [shareOf(progress) * width, height - (density / peak) * (height - 4)],
  )
  return {
    ...{ width, height },
    path: `M0,${height} L${pair([0, points[0]![1]])} ${smooth(points)} L${pair([width, points.at(-1)![1]])} L${width},${height} Z`,
    band: { x: shareOf(-wellBand) * width, width: (shareOf(wellBand) - shareOf(-wellBand)) * width },
    marks: [
      { percent: 100 * shareOf(Math.log(0.5)), words: "half" },
      { percent: 50, words: "as intended" },
      { percent: 100 * shareOf(Math.log(2)), words: "twice" },
    ],
  }
}

type Point = [x: number, y: number]
const shareOf = (progress: number) => (progress + end) / (2 * end)

/** A curve through all points, each piece of it led by its neighbours (Catmull and Rom's spline as Bézier curves). */
function smooth(points: Point[]): string {
  const at = (index: number) => points[Math.min(Math.max(index, 0), points.length - 1)]!
  const lead = (from: Point, to: Point, by: number, of: Point): Point => [
    of[0] + (by * (to[0] - from[0])) / 6,
    Math.min(height, of[1] + (by * (to[1] - from[1])) / 6),
  ]
  const pieces = points.slice(1).map((to, index) => {
    const from = at(index)
    return `C${pair(lead(at(index - 1), to, 1, from))} ${pair(lead(from, at(index + 2), -1, to))} ${pair(to)}`
  })
  return `L${pair(at(0))} ${pieces.join(" ")}`
}

const pair = ([x, y]: Point) => `${x.toFixed(1)},${y.toFixed(1)}`
