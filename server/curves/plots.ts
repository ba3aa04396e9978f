import { hoursAxis, namesAxis, niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, PlotAxis, Series } from "../plots/plot.ts"
import type { Course, Courses } from "./courses.ts"
import { namedAs } from "./measured.ts"
import { riseSays, stagesSay, warmthSays } from "./says.ts"
import { drawable, type Kind, kinds, lanes, line, middleOf, ownOf, plannedOf } from "./series.ts"
import { timeWords } from "./time-words.ts"

/** The axes of all plots of some courses, and the series that are the same in every one: the class's, and the plan where it is. */
export type Common = { x: PlotAxis; y: Record<Kind, PlotAxis>; series: Record<Kind, Series[]>; onePlan: boolean }

export function commonOf(courses: Courses): Common {
  const [first, ...others] = courses.each.map((course) => JSON.stringify(kinds.map((kind) => plannedOf[kind](course))))
  const onePlan = others.length > 0 && others.every((other) => other === first)
  const commonIn = (kind: Kind) => [...middleOf[kind](courses), ...(onePlan ? plannedOf[kind](courses.each[0]!) : [])]
  const all = (kind: Kind) => [
    ...commonIn(kind),
    ...courses.each.flatMap((course) => [...plannedOf[kind](course), ...ownOf[kind](course)]),
  ]
  const zero = line("", "own", [{ x: 0, y: 0 }])
  return {
    x: hoursAxis(courses.fromH, courses.toH, timeWords(courses)),
    y: {
      rise: niceAxis(...reachOf([...all("rise"), zero], "y"), { label: "Rise", unit: "%", digits: 0 }, 4),
      temperature: niceAxis(...reachOf(all("temperature"), "y"), { label: "Temperature", unit: "°C", digits: 1 }, 4),
      stages: withLanes(courses),
    },
    series: {
      rise: commonIn("rise").filter(drawable),
      temperature: commonIn("temperature").filter(drawable),
      stages: commonIn("stages").filter(drawable),
    },
    onePlan,
  }
}

/** Without a class there are no lanes for it. */
function withLanes({ stages }: Courses): PlotAxis {
  const axis = namesAxis("", lanes)
  return stages.length ? axis : { ...axis, from: 1.5, ticks: axis.ticks.slice(2) }
}

/** The three plots of one bake. What they share with all others comes first in each. */
export function plotsOfBake(course: Course, { x, y, series, onePlan }: Common): Record<Kind, Plot> {
  const name = namedAs(course.laid.bake)
  const plot = (kind: Kind, title: string, says: string): Plot => ({
    ...{ title: `${title} of ${name}`, says, x, y: y[kind] },
    series: [...series[kind], ...(onePlan ? [] : plannedOf[kind](course)), ...ownOf[kind](course)].filter(drawable),
  })
  return {
    rise: plot("rise", "Rise", riseSays(course)),
    temperature: plot("temperature", "Temperatures", warmthSays(course)),
    stages: plot("stages", "Stages", stagesSay(course)),
  }
}

/** What all plots of a kind share, as a plot of its own. */
export function sharedPlots(courses: Courses, { x, y, series, onePlan }: Common): Record<Kind, Plot> {
  const plot = (kind: Kind, title: string): Plot => ({
    ...{ title, says: `${title}, of ${courses.each.length} bakes${onePlan ? ", and the plan" : ""}.` },
    ...{ x, y: y[kind], series: series[kind] },
  })
  return {
    rise: plot("rise", "Rise of the class"),
    temperature: plot("temperature", "Dough temperatures of the class"),
    stages: plot("stages", "Stages of the class"),
  }
}
