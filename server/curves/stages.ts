import { fermentingStages, type Stage } from "../dough/schedule.ts"
import { leastForBand } from "../dough/statistics/class-band.ts"
import { quantile } from "../dough/statistics/spread.ts"
import type { PlotPoint } from "../plots/plot.ts"
import type { Row } from "../table/row.ts"
import type { Place } from "./measured.ts"

/** A stage from x to `until`; the height it lies at is the drawing's to choose. */
export type StageSpan = { stage: Stage; x: number; until: number }

/** The stages that were marked, from the first that temperature drives to the oven. */
export const bakedStages = ({ spans, stages }: Row, at: Place) => spansAt(spans, stages, at)
/** The same as they were planned. */
export const plannedStages = ({ planned, stages }: Row, at: Place) => spansAt(planned, stages, at)

function spansAt(times: { stage: Stage; startsAt: Date; endsAt: Date }[], stages: Stage[], at: Place): StageSpan[] {
  const shown = [...fermentingStages(stages), ...stages.filter(({ kind }) => kind === "bake")].map(({ key }) => key)
  return times
    .filter(({ stage }) => shown.includes(stage.key))
    .flatMap(({ stage, startsAt, endsAt }) => {
      const [x, until] = [at(startsAt), at(endsAt)]
      // in reference hours the oven takes none
      return x === undefined || until === undefined || until <= x ? [] : [{ stage, x, until }]
    })
}

/** What the class's stages have in common: for each that at least five bakes have, the middle start and end, and the middle half of the ends. */
export type MiddleStage = StageSpan & { endLow: number; endHigh: number; count: number }
export function middleStages(bakes: StageSpan[][]): MiddleStage[] {
  const all = bakes.flat()
  const stages = [...new Map(all.map(({ stage }) => [stage.key, stage])).values()]
  return stages.flatMap((stage) => {
    const theirs = all.filter((span) => span.stage.key === stage.key)
    if (theirs.length < leastForBand) return []
    const ends = theirs.map(({ until }) => until)
    const middle = {
      x: at(
        theirs.map(({ x }) => x),
        0.5,
      ),
      until: at(ends, 0.5),
    }
    return [{ stage, ...middle, endLow: at(ends, 0.25), endHigh: at(ends, 0.75), count: theirs.length }]
  })
}

function at(values: number[], share: number): number {
  const answer = quantile(values, share)
  if (!answer.enough) throw new RangeError(answer.why)
  return answer.value
}

/** Spans at a height, each with the kind of its stage. */
export const laidAt = (spans: StageSpan[], y: number): PlotPoint[] =>
  spans.map(({ stage, x, until }) => ({ x, until, y, label: stage.kind }))

/** The same, from light to dark. */
export const toned = (spans: StageSpan[], y: number): PlotPoint[] =>
  spans.map((span) => ({ ...laidAt([span], y)[0]!, tone: toneOf(span.stage) }))

const toneOf = ({ kind }: Stage) => (kind === "bake" ? 3 : kind === "proof" || kind === "retard" ? 2 : 1)
