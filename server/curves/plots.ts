import type { Answer } from "../dough/statistics/answer.ts"
import type { BandPoint } from "../dough/statistics/class-band.ts"
import { hoursAxis, namesAxis, niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, PlotAxis, PlotPoint, Role, Series } from "../plots/plot.ts"
import type { Course, Courses } from "./courses.ts"
import { namedAs } from "./measured.ts"
import { riseSays, stagesSay, warmthSays } from "./says.ts"
import { laidAt, toned } from "./stages.ts"
import { timeWords } from "./time-words.ts"

/** What is drawn of every bake, each kind over one scale for all of them. */
export const kinds = ["rise", "temperature", "stages"] as const
export type Kind = (typeof kinds)[number]

/** The axes that all plots of some courses share, and the series that say what the class has in common. */
export type Common = { x: PlotAxis; y: Record<Kind, PlotAxis>; series: Record<Kind, Series[]> }

export function commonOf(courses: Courses): Common {
  const series = {
    rise: bandSeries(courses.rise),
    temperature: bandSeries(courses.dough),
    stages: middleSeries(courses),
  }
  const reach = (kind: "rise" | "temperature", least: PlotPoint[]) =>
    reachOf([...series[kind], ...courses.each.flatMap((course) => own[kind](course)), line("", "own", least)], "y")
  return {
    x: hoursAxis(courses.fromH, courses.toH, timeWords(courses)),
    y: {
      rise: niceAxis(...reach("rise", [{ x: 0, y: 0 }]), { label: "Rise", unit: "%", digits: 0 }, 4),
      temperature: niceAxis(...reach("temperature", []), { label: "Temperature", unit: "°C", digits: 1 }, 4),
      stages: namesAxis("", lanes(series.stages.length > 0)),
    },
    series,
  }
}

const lanes = (withClass: boolean) => (withClass ? ["ends", "class", "plan", "baked"] : ["plan", "baked"])

/** The three plots of one bake. What they share with all others comes first in each. */
export function plotsOfBake(course: Course, common: Common): Record<Kind, Plot> {
  const name = namedAs(course.laid.bake)
  const top = common.y.stages.ticks.length - 1
  const plot = (kind: Kind, title: string, says: string, series: Series[]): Plot => ({
    ...{ title: `${title} of ${name}`, says, x: common.x, y: common.y[kind] },
    series: [...common.series[kind], ...series].filter(({ points }) => points.length),
  })
  return {
    rise: plot("rise", "Rise", riseSays(course), own.rise(course)),
    temperature: plot("temperature", "Temperatures", warmthSays(course), own.temperature(course)),
    stages: plot("stages", "Stages", stagesSay(course), [
      { name: `stages of ${name}`, kind: "span", role: "own", points: toned(course.stages, top) },
      { name: "plan", kind: "span", role: "plan", points: laidAt(course.plannedStages, top - 1) },
    ]),
  }
}

const own = {
  rise: (course: Course): Series[] => [
    line("plan, by the model", "plan", course.plannedRise),
    { name: "target at the planned end of bulk", kind: "dots", role: "target", points: course.target },
    { ...line(`rise of ${namedAs(course.laid.bake)}`, "own", course.rise), marked: true },
  ],
  temperature: (course: Course): Series[] => [
    line("plan", "plan", course.plannedDough),
    { ...line(`room of ${namedAs(course.laid.bake)}`, "other", course.room), marked: true },
    { ...line(`dough of ${namedAs(course.laid.bake)}`, "own", course.dough), marked: true },
  ],
}

const line = (name: string, role: Role, points: PlotPoint[]): Series => ({ name, kind: "line", role, points })

function bandSeries(band: Answer<BandPoint[]>): Series[] {
  if (!band.enough) return []
  return [
    line(
      "middle of the class",
      "median",
      band.value.map(({ x, middle }) => ({ x, y: middle })),
    ),
    {
      ...{ name: "middle half of the class", kind: "band", role: "spread" },
      points: band.value.map(({ x, low, high }) => ({ x, y: low, high })),
    },
  ]
}

function middleSeries({ stages }: Courses): Series[] {
  if (!stages.length) return []
  return [
    { name: "middle of the class", kind: "span", role: "median", points: laidAt(stages, 1) },
    {
      ...{ name: "when the middle half of the class ended what temperature drives", kind: "span", role: "spread" },
      points: stages
        .filter(({ stage }) => stage.drivenByTemperature)
        .map(({ stage, endLow, endHigh }) => ({ x: endLow, until: endHigh, y: 0, label: stage.kind })),
    },
  ]
}

/** What the class has in common, as plots of their own: their axes and series stand first in every bake's plot. */
export function classPlots(courses: Courses, common: Common): Record<Kind, Plot> {
  const plot = (kind: Kind, title: string): Plot => ({
    ...{ title, says: `${title}, of ${courses.each.length} bakes.`, x: common.x, y: common.y[kind] },
    series: common.series[kind],
  })
  return {
    rise: plot("rise", "Rise of the class"),
    temperature: plot("temperature", "Dough temperatures of the class"),
    stages: plot("stages", "Stages of the class"),
  }
}
