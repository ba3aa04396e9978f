import { hoursAxis, namesAxis } from "../plots/axes.ts"
import type { Plot, Series } from "../plots/plot.ts"
import type { Lined } from "../table/places.ts"
import { type Course, type Courses, coursesOf } from "./courses.ts"
import { type Laid, namedAs } from "./measured.ts"
import { type Common, commonOf, plotsOfBake } from "./plots.ts"
import { drawable, kinds, line, middleOf } from "./series.ts"
import { toned } from "./stages.ts"
import { timeWords } from "./time-words.ts"

/** A plot that one may choose, by a key that stays the same however often it is drawn anew. */
export type KeyedPlot = { key: string; plot: Plot }

/**
 * Every plot that these bakes give, as plain data to be kept: what the class did in one picture, and the three of each bake.
 * Lined up by the start of fermentation unless said. Nothing that nobody measured is among them.
 */
export function plotsOfBakeDay(all: Laid[], { zone, lined = "start" }: { zone: string; lined?: Lined }): KeyedPlot[] {
  const courses = coursesOf(all, { lined, zone })
  const common = commonOf(courses)
  const ofClass = [
    { key: "rises", plot: risesOf(courses, common) },
    { key: "temperatures", plot: temperaturesOf(courses, common) },
    { key: "stages", plot: stagesOf(courses) },
  ].filter(({ plot }) => plot.series.some(({ role, points }) => isOf(role) && points.length))
  const ofBakes = courses.each.flatMap((course) => {
    const plots = plotsOfBake(course, common)
    return kinds.flatMap((kind) => {
      const measured = plots[kind].series.some(({ role }) => isOf(role))
      return measured ? [{ key: `${kind}-${course.laid.bake.id}`, plot: plots[kind] }] : []
    })
  })
  return [...ofClass, ...ofBakes]
}
const isOf = (role: string) => role === "own" || role === "other"

function risesOf(courses: Courses, { x, y }: Common): Plot {
  const planned = courses.each.find(({ plannedRise }) => plannedRise.length)
  return {
    title: "The rise of every dough",
    says: `How far each of ${courses.each.length} doughs had risen, over time.`,
    ...{ x, y: y.rise },
    series: [
      ...middleOf.rise(courses),
      ...(planned ? [line("plan, by the model", "plan", planned.plannedRise)] : []),
      ...courses.each.map((course) => named(course, "rise", course.rise)),
    ].filter(drawable),
  }
}

function temperaturesOf(courses: Courses, { x, y }: Common): Plot {
  const planned = courses.each.find(({ plannedDough }) => plannedDough.length)
  return {
    title: "The temperature of every dough",
    says: `How warm each of ${courses.each.length} doughs was, over time.`,
    ...{ x, y: y.temperature },
    series: [
      ...middleOf.temperature(courses),
      ...(planned ? [line("plan", "plan", planned.plannedDough)] : []),
      ...courses.each.map((course) => named(course, "dough", course.dough)),
    ].filter(drawable),
  }
}

/** A line with its name at its end. */
function named({ laid }: Course, what: string, points: Course["rise"]): Series {
  const name = namedAs(laid.bake)
  const last = points.length - 1
  return {
    ...{ name: `${what} of ${name}`, kind: "line", role: "other" },
    points: points.map((point, nth) => (nth === last ? { ...point, label: name } : point)),
  }
}

function stagesOf(courses: Courses): Plot {
  const each = courses.each.filter(({ stages }) => stages.length).toReversed()
  return {
    title: "The stages of every bake",
    says: `From when to when the stages of each of ${each.length} bakes lasted, one bake under another.`,
    x: hoursAxis(courses.fromH, courses.toH, timeWords(courses)),
    y: namesAxis(
      "",
      each.map(({ laid }) => namedAs(laid.bake)),
    ),
    series: [
      { name: "stages", kind: "span", role: "own", points: each.flatMap(({ stages }, nth) => toned(stages, nth)) },
    ],
  }
}
