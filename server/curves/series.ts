import type { Answer } from "../dough/statistics/answer.ts"
import type { BandPoint } from "../dough/statistics/class-band.ts"
import type { PlotPoint, Role, Series } from "../plots/plot.ts"
import type { Course, Courses } from "./courses.ts"
import { namedAs } from "./measured.ts"
import { laidAt, toned } from "./stages.ts"

/** What is drawn of every bake, each kind over one scale for all of them. */
export const kinds = ["rise", "temperature", "stages"] as const
export type Kind = (typeof kinds)[number]

/** The heights that stages lie at, from the bottom. */
export const lanes = ["ends", "class", "plan", "baked"]
const [endsY, classY, planY, bakedY] = [0, 1, 2, 3]

/** What was done. */
export const ownOf: Record<Kind, (course: Course) => Series[]> = {
  rise: ({ laid, rise }) => [{ ...line(`rise of ${namedAs(laid.bake)}`, "own", rise), marked: true }],
  temperature: ({ laid, room, dough }) => [
    { ...line(`room of ${namedAs(laid.bake)}`, "other", room), marked: true },
    { ...line(`dough of ${namedAs(laid.bake)}`, "own", dough), marked: true },
  ],
  stages: ({ laid, stages }) => [
    { name: `stages of ${namedAs(laid.bake)}`, kind: "span", role: "own", points: toned(stages, bakedY) },
  ],
}

/** What was planned. */
export const plannedOf: Record<Kind, (course: Course) => Series[]> = {
  rise: ({ plannedRise, target }) => [
    line("plan, by the model", "plan", plannedRise),
    { name: "target at the planned end of bulk", kind: "dots", role: "target", points: target },
  ],
  temperature: ({ plannedDough }) => [line("plan", "plan", plannedDough)],
  stages: ({ plannedStages }) => [{ name: "plan", kind: "span", role: "plan", points: laidAt(plannedStages, planY) }],
}

/** What the class has in common. */
export const middleOf: Record<Kind, (courses: Courses) => Series[]> = {
  rise: ({ rise }) => bandSeries(rise),
  temperature: ({ dough }) => bandSeries(dough),
  stages: ({ stages }) => [
    { name: "middle of the class", kind: "span", role: "median", points: laidAt(stages, classY) },
    {
      ...{ name: "when the middle half of the class ended what temperature drives", kind: "span", role: "spread" },
      points: stages
        .filter(({ stage }) => stage.drivenByTemperature)
        .map(({ stage, endLow, endHigh }) => ({ x: endLow, until: endHigh, y: endsY, label: stage.kind })),
    },
  ],
}

function bandSeries(band: Answer<BandPoint[]>): Series[] {
  if (!band.enough) return []
  const middle = band.value.map(({ x, middle: y }) => ({ x, y }))
  const half = band.value.map(({ x, low: y, high }) => ({ x, y, high }))
  return [
    line("middle of the class", "median", middle),
    { name: "middle half of the class", kind: "band", role: "spread", points: half },
  ]
}

export const line = (name: string, role: Role, points: PlotPoint[]): Series => ({ name, kind: "line", role, points })
export const drawable = ({ points }: Series) => points.length > 0
