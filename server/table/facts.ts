import type { Change } from "../changes/as-baked.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import {
  assumedShare,
  type CurvePoint,
  doughCurve,
  heldOver,
  meanDoughC,
} from "../dough/fermentation/temperature-curve.ts"
import {
  countBack,
  fermentingStages,
  type PlannedStage,
  pausedMin,
  plannedReferenceHours,
  type Stage,
} from "../dough/schedule.ts"
import type { Finger } from "../dough/verdict/facts.ts"
import type { Known } from "../schema.ts"
import { type Log, lastLogged, type Span, type State, spansOf, stateOf } from "./spans.ts"

/** `known` only where nobody measured it. */
type Point = { at: Date; c: number; known?: Guessed }
type Guessed = Exclude<Known, "measured">
/** Dough temperatures, °C; `from` "room" means nobody measured the dough and the room's temperature stands in for it. */
type Warmth = {
  from: "dough" | "room"
  curve: CurvePoint[]
  points: Point[]
  meanC?: number
  lowC: number
  highC: number
  first: Point
  last: Point
  endOfBulk?: Point
}
/** Pauses are not in `actualMin`. `difference` in minutes against the middle of the planned range; only when start and end are marked. */
export type StageTime = { stage: Stage; plannedMin: number; span?: Span; actualMin?: number; difference?: number }
type Fermented = { hours: number; startsAt: Date; endsAt: Date; assumedShare: number; soFar: boolean }
type Gap =
  | "no stage is driven by temperature"
  | "nothing logged"
  | "no temperature"
  | "no start"
  | "no end"
  | "out of order"

/** What one bake's log says against its plan, before anybody judges it. */
export type Facts = {
  state: State
  lastLoggedAt?: Date
  onTableAt: Date
  /** What raises the dough: its rates are behind all reference hours. */
  culture: Culture
  stages: Stage[]
  planned: PlannedStage[]
  plannedHours?: number
  spans: Span[]
  times: StageTime[]
  warmth?: Warmth
  room: Point[]
  rise?: Risen
  targetRise?: number
  finger?: Finger
  fermented?: Fermented
  /** Why there are no reference hours. */
  gap?: Gap
  /** What the baker did otherwise than the formula says. */
  changes: Change[]
}
/** `known` only where nobody measured it. */
type Risen = { at: Date; share: number; known?: Guessed }

/** Works the facts out, from a bake's log, the stages of its formula, the bake day's targets and what raises the dough. */
export function factsOf(log: Log, stages: Stage[], targets: Targets, now: Date, culture: Culture = "sourdough"): Facts {
  const spans = spansOf(log, stages, now)
  const state = stateOf(log, stages, spans, now)
  const warmth = warmthOf(log, stages, spans)
  return {
    state,
    lastLoggedAt: lastLogged(log),
    onTableAt: log.onTableAt,
    stages,
    planned: countBack(stages, log.onTableAt),
    culture,
    plannedHours: plannedReferenceHours(stages, culture),
    spans,
    times: timesOf(stages, spans),
    warmth,
    room: pointsOf(log, "room"),
    rise: riseOf(log, stages, spans),
    targetRise: targets.targetRise ?? undefined,
    finger: fingerOf(log, spans),
    changes: log.changes ?? [],
    ...fermentedOf(windowOf(stages, spans, state), warmth, state, culture),
  }
}
export type Targets = { targetRise: number | null }

function timesOf(stages: Stage[], spans: Span[]): StageTime[] {
  return stages.map((stage) => {
    const plannedMin = (stage.lowMin + stage.highMin) / 2
    const span = spans.find((one) => one.stage.key === stage.key)
    if (!span || span.end === "open") return { stage, plannedMin, span }
    const actualMin = minutesBetween(span.startsAt, span.endsAt) - pausedMin(span.pauses, span.endsAt)
    return { stage, plannedMin, span, actualMin, difference: actualMin - plannedMin }
  })
}

function warmthOf(log: Log, stages: Stage[], spans: Span[]): Warmth | undefined {
  const dough = pointsOf(log, "dough")
  const from = dough.length ? "dough" : "room"
  const points = dough.length ? dough : pointsOf(log, "room").filter(({ c }) => c >= coldestDoughC)
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last) return undefined

  const driven = spansWithin(spans, fermentingStages(stages))
  const fridges = driven.map(({ stage, startsAt, endsAt }) =>
    stage.kind === "retard" ? { startsAt, endsAt, cold: true, surroundingsC: stage.referenceC } : { startsAt, endsAt },
  )
  const measured = doughCurve(
    points.map(({ at, c, known }) => ({ at, doughC: c, known: known ? "assumed" : "measured" })),
    fridges,
  )
  const curve = from === "dough" ? measured : measured.map((point) => ({ ...point, known: "assumed" as const }))
  const bulk = driven.find(({ stage }) => stage.kind === "bulk")
  const endOfBulk = bulk && points.filter(({ at }) => at >= bulk.startsAt && at <= bulk.endsAt).at(-1)
  const extent = extentOf(driven)
  const all = points.map(({ c }) => c)
  const meanC = extent && meanDoughC(curve, extent.startsAt, extent.endsAt)
  return { from, curve, points, meanC, lowC: Math.min(...all), highC: Math.max(...all), first, last, endOfBulk }
}
// The rate is not defined below; a room can be colder.
const coldestDoughC = -5

type Window = { startsAt: Date; endsAt: Date } | { gap: Gap }

/** From the start of the first stage that temperature drives to the end of the last, or as far as the bake has come. */
function windowOf(stages: Stage[], spans: Span[], state: State): Window {
  const fermenting = fermentingStages(stages)
  if (!fermenting.length) return { gap: "no stage is driven by temperature" }
  if (state === "nothing" || !spans.length) return { gap: "nothing logged" }
  const [first, last] = [fermenting[0]!, fermenting.at(-1)!]
  const start = spans.find(({ stage }) => stage.key === first.key)?.startsAt
  if (!start) return { gap: "no start" }
  const marked = spansWithin(spans, fermenting)
  const inOrder = marked.every((span, index) => index === 0 || span.startsAt >= marked[index - 1]!.startsAt)
  if (!inOrder) return { gap: "out of order" }

  const lastSpan = spans.find(({ stage }) => stage.key === last.key)
  const oven = spans.find(({ stage }) => stage.kind === "bake")?.startsAt
  if (lastSpan && lastSpan.end !== "open") return { startsAt: start, endsAt: lastSpan.endsAt }
  if (state === "over" && oven && oven >= start) return { startsAt: start, endsAt: oven }
  if (state === "over") return { gap: "no end" }
  return { startsAt: start, endsAt: extentOf(marked)!.endsAt }
}

function fermentedOf(
  window: Window,
  warmth: Warmth | undefined,
  state: State,
  culture: Culture,
): { fermented?: Fermented; gap?: Gap } {
  if ("gap" in window) return { gap: window.gap }
  if (!warmth) return { gap: "no temperature" }
  const { startsAt, endsAt } = window
  const hours = referenceHours(heldOver(warmth.curve, startsAt, endsAt), startsAt, endsAt, culture)
  return {
    fermented: {
      hours,
      startsAt,
      endsAt,
      assumedShare: assumedShare(warmth.curve, startsAt, endsAt),
      soFar: state !== "over",
    },
  }
}

/** The last rise before the dough was divided or shaped, measured if any was; a rise after that has another start. */
function riseOf(log: Log, stages: Stage[], spans: Span[]): Risen | undefined {
  const shapingAt = spans.find(({ stage }) => stage.kind === "divide" || stage.kind === "shape")?.startsAt
  const bulkEnd = spans.find(({ stage }) => stage.kind === "bulk")
  const before = shapingAt ?? (bulkEnd?.end === "open" ? undefined : bulkEnd?.endsAt)
  const untilBulk = stages.slice(0, stages.findLastIndex(({ kind }) => kind === "bulk" || kind === "fold") + 1)
  const inBulk = (key: string | null) => untilBulk.some((stage) => stage.key === key)
  const rises = log.readings
    .filter(({ kind, value }) => kind === "rise" && value !== null)
    .filter(({ takenAt, stageKey }) => !before || takenAt <= before || inBulk(stageKey))
    .map(({ takenAt, value, known }): Risen => ({ at: takenAt, share: value!, ...guessed(known) }))
    .sort((a, b) => +a.at - +b.at)
  return rises.findLast(({ known }) => !known) ?? rises.at(-1)
}

/** The last finger test from proof to the oven; without one there, the last of all. */
function fingerOf(log: Log, spans: Span[]): Finger | undefined {
  const tests = log.readings
    .filter(({ kind, finger }) => kind === "finger" && finger)
    .sort((a, b) => +a.takenAt - +b.takenAt)
  const proof = spans.findLast(({ stage }) => stage.kind === "proof" || stage.kind === "retard")
  const oven = spans.find(({ stage }) => stage.kind === "bake")?.startsAt
  const inProof = tests.filter(({ takenAt }) => proof && takenAt >= proof.startsAt && (!oven || takenAt <= oven))
  return (inProof.at(-1) ?? tests.at(-1))?.finger ?? undefined
}

function pointsOf(log: Log, kind: "dough" | "room"): Point[] {
  return log.readings
    .filter((reading) => reading.kind === kind && reading.value !== null)
    .map(({ takenAt, value, known }) => ({ at: takenAt, c: value!, ...guessed(known) }))
    .sort((a, b) => +a.at - +b.at)
}

const guessed = (known: Known = "measured") => (known === "measured" ? {} : { known })

export const spansWithin = (spans: Span[], stages: Stage[]) =>
  spans.filter(({ stage }) => stages.some(({ key }) => key === stage.key))

/** From the earliest start to the latest end; undefined for no spans. */
function extentOf(spans: { startsAt: Date; endsAt: Date }[]) {
  if (!spans.length) return undefined
  const startsAt = new Date(Math.min(...spans.map((one) => +one.startsAt)))
  return { startsAt, endsAt: new Date(Math.max(...spans.map((one) => +one.endsAt))) }
}

export const minutesBetween = (from: Date, to: Date) => (+to - +from) / 60_000
