import type { Leg, PlannedStretch } from "../dough/causes/hours.ts"
import { fermentingStages, type Stage } from "../dough/schedule.ts"
import type { Log, Span, State } from "./spans.ts"

type Legs = { legs: Leg[]; endAboutMin: number }
type Course = { stages: Stage[]; spans: Span[]; state: State }

/**
 * A bake's way to the oven, leg by leg from one marked stage to the next, or in a sentence why it cannot be told. What
 * nobody marked belongs to the stage before it, in the plan as in the bake.
 */
export function legsOf({ stages, spans, state }: Course, log: Log): Legs | { why: string } {
  if (state === "running") return { why: "It has not come to the oven yet." }
  if (state === "abandoned") return { why: "It was given up." }
  if (state === "nothing" || !spans.length) return { why: "Nothing is logged." }
  const fermenting = fermentingStages(stages)
  const [first, last] = [fermenting[0], fermenting.at(-1)]
  if (!first || !last) return { why: "No stage of this formula is driven by temperature." }
  const unmeant = fermenting.find((stage) => stage.drivenByTemperature && stage.referenceC === undefined)
  if (unmeant) return { why: `The plan gives ${lower(unmeant.name)} no temperature.` }

  const end = endOf(stages, last, spans)
  if (!end) return { why: `The end of ${lower(last.name)} is not marked.` }
  const window = stages.slice(stages.indexOf(first), stages.indexOf(end.before))
  const starts = startsIn(window, stages, spans, log)
  if (!starts.length) return { why: `The start of ${lower(first.name)} is not marked.` }
  const instants = [...starts.map(({ at }) => at), end.at]
  if (instants.some((at, index) => index > 0 && at < instants[index - 1]!))
    return { why: "The stages are marked out of order." }

  const stretches = plannedIn(window, first.referenceC!)
  const legs = starts.map(({ from, at, aboutMin }, index): Leg => {
    const next = starts[index + 1]
    const planned = stretches.slice(index === 0 ? 0 : from, next?.from)
    return { startsAt: at, endsAt: next?.at ?? end.at, planned, ...(aboutMin ? { aboutMin } : {}) }
  })
  const ovenMark = log.marks.find(({ stageKey }) => stageKey === end.mark.key)
  const endAboutMin = (end.mark.kind === "bake" ? ovenMark?.startedAboutMin : ovenMark?.endedAboutMin) ?? 0
  return { legs, endAboutMin }
}

/** When it went into the oven, or else when the last stage that temperature drives was over; `before` is the first stage after it. */
function endOf(stages: Stage[], last: Stage, spans: Span[]) {
  const oven = stages.find(({ kind }, at) => kind === "bake" && at > stages.indexOf(last))
  const inOven = spans.find(({ stage }) => stage === oven)
  if (oven && inOven) return { at: inOven.startsAt, mark: oven, before: oven }
  const proofed = spans.find(({ stage, end }) => stage === last && end !== "open")
  const after = stages[stages.indexOf(last) + 1]
  return proofed && { at: proofed.endsAt, mark: last, before: after ?? last }
}

type Start = { from: number; at: Date; aboutMin?: number | null }

/** The marked starts, each with its place in the window; for a first stage that nobody marked, the end of the one before it. */
function startsIn(window: Stage[], stages: Stage[], spans: Span[], log: Log): Start[] {
  const skipped = (log.changes ?? []).flatMap(({ kind, stageKey }) => (kind === "skipped" ? [stageKey] : []))
  const starts = window.flatMap((stage, from): Start[] => {
    const mark = log.marks.find(({ stageKey }) => stageKey === stage.key)
    return mark ? [{ from, at: mark.startedAt, aboutMin: mark.startedAboutMin }] : []
  })
  const [first] = starts
  if (first && window.slice(0, first.from).every(({ key }) => skipped.includes(key))) return starts
  const before = stages[stages.indexOf(window[0]!) - 1]
  const ended = spans.find(({ stage, end }) => stage === before && end === "marked")
  const about = log.marks.find(({ stageKey }) => stageKey === before?.key)?.endedAboutMin
  return ended ? [{ from: 0, at: ended.endsAt, aboutMin: about }, ...starts] : []
}

/** What each stage asks for, at the middle of its range; one without a temperature keeps that of the stage before. */
function plannedIn(window: Stage[], firstC: number): PlannedStretch[] {
  let doughC = firstC
  return window.map(({ kind, lowMin, highMin, referenceC }) => {
    doughC = referenceC ?? doughC
    return { min: (lowMin + highMin) / 2, c: doughC, cooling: kind === "retard" }
  })
}

const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1)
