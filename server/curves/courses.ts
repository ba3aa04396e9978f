import type { Answer } from "../dough/statistics/answer.ts"
import type { BandPoint } from "../dough/statistics/class-band.ts"
import { classBand } from "../dough/statistics/class-band.ts"
import type { PlotPoint } from "../plots/plot.ts"
import { layAxis } from "../table/axis.ts"
import { type Lined, type Places, placesOf } from "../table/places.ts"
import { type Laid, risesOf, temperaturesOf } from "./measured.ts"
import { plannedRise, plannedTarget, plannedTemperatures } from "./planned.ts"
import { bakedStages, type MiddleStage, middleStages, plannedStages, type StageSpan } from "./stages.ts"

/** One bake's courses over one time, in hours; `unmarked` says that it stands where its plan has it. */
export type Course = {
  laid: Laid
  rise: PlotPoint[]
  plannedRise: PlotPoint[]
  target: PlotPoint[]
  dough: PlotPoint[]
  room: PlotPoint[]
  plannedDough: PlotPoint[]
  stages: StageSpan[]
  plannedStages: StageSpan[]
  unmarked: boolean
}

/** All courses over one time, with what they have in common. */
export type Courses = {
  lined: Lined
  fromH: number
  toH: number
  each: Course[]
  rise: Answer<BandPoint[]>
  dough: Answer<BandPoint[]>
  stages: MiddleStage[]
}

/** Lays bakes over one time, by what they are lined up by. `zone` is the class's, for the clock. */
export function coursesOf(all: Laid[], { lined, zone }: { lined: Lined; zone: string }): Courses {
  const rows = all.map(({ row, bake }) => ({ ...row, zone: bake.zone }))
  const each = all.map((laid, nth) => {
    const places = placesOf(rows[nth]!, { lined, zone })
    return courseOf(laid, lined === "reference" ? whileFermenting(laid, places) : places)
  })
  const { fromH, toH } = reachTo(each, layAxis(rows, lined, zone))
  const step = stepIn(toH - fromH)
  return {
    ...{ lined, fromH, toH, each },
    rise: classBand(
      each.map(({ rise }) => rise),
      step,
    ),
    dough: classBand(
      each.map(({ dough }) => dough),
      step,
    ),
    stages: middleStages(each.map(({ stages }) => stages)),
  }
}

function courseOf(laid: Laid, { actual, planned, unmarked }: Places): Course {
  return {
    ...{ laid, unmarked },
    rise: risesOf(laid, actual),
    plannedRise: plannedRise(laid, planned),
    target: plannedTarget(laid, planned),
    dough: temperaturesOf(laid, "dough", actual),
    room: temperaturesOf(laid, "room", actual),
    plannedDough: plannedTemperatures(laid, planned),
    stages: bakedStages(laid.row, actual),
    plannedStages: plannedStages(laid.row, planned),
  }
}

/** Reference hours have no place for what was read before the dough fermented, or after. */
function whileFermenting({ row: { fermented } }: Laid, places: Places): Places {
  if (!fermented) return places
  const { startsAt, endsAt } = fermented
  return { ...places, actual: (at) => (at >= startsAt && at <= endsAt ? places.actual(at) : undefined) }
}

/** The axis of the stages, and as far as what was read a little before or after them. */
function reachTo(each: Course[], { fromH, toH }: { fromH: number; toH: number }) {
  const read = each.flatMap(({ rise, dough, room }) => [...rise, ...dough, ...room]).map(({ x }) => x)
  const near = read.filter((x) => x >= fromH - nearH && x <= toH + nearH)
  return { fromH: Math.min(fromH, ...near), toH: Math.max(toH, ...near) }
}
// What lies farther off, a dough measured the evening before, would squeeze all others. Our own choice.
const nearH = 2

/** About thirty steps: a reading an hour is no finer than that. */
const stepIn = (hours: number) => [0.25, 0.5, 1, 2].find((step) => hours / step <= 32) ?? 4
