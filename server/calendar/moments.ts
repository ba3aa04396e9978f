import type { DayPlan, DayStage } from "../dough/day/day.ts"

/** Something in a day that asks for somebody: hands on the dough, the oven, the table. Times are whole minutes, as plans show them. */
export type Moment = {
  /** With the plan, what it is known by however often the plan moves: the stage's key, and which of its moments, from 1. */
  stageKey: string
  nth: number
  of: number
  what: "hands on" | "oven" | "table"
  /** "Bulk, fold 2 of 4" */
  name: string
  from: Date
  /** Not there for a mere moment. */
  to?: Date
  stage?: DayStage
  /** Stages after this one in which the dough is left alone, until somebody is asked for again. */
  leftAlone: DayStage[]
}

/**
 * The moments of a day that belong in a calendar, in order. A long rise is none: it is said by the moment before it. The first
 * stage always is one, since somebody has to begin, and the table is the last.
 */
export function momentsOf(plan: DayPlan): Moment[] {
  const moments: Moment[] = []
  for (const [at, stage] of plan.stages.entries()) {
    const spans = spansOf(stage, plan)
    if (at === 0 && spans.length === 0) spans.push({ from: stage.startsAt })
    const found = spans.map((span, index) => ({
      ...{ stageKey: stage.stage.key, nth: index + 1, of: spans.length },
      ...{ what: stage.stage.kind === "bake" ? ("oven" as const) : ("hands on" as const) },
      name: [stage.stage.name, whichOf(span, spans, stage)].filter(Boolean).join(", "),
      ...{ ...inMinutes(span), stage, leftAlone: [] },
    }))
    if (found.length === 0 && stage.stage.kind !== "bake") moments.at(-1)?.leftAlone.push(stage)
    moments.push(...found)
  }
  const table = { stageKey: "", nth: 1, of: 1, what: "table" as const, name: "On the table", leftAlone: [] }
  return [...moments.toSorted((a, b) => +a.from - +b.from), { ...table, ...inMinutes({ from: plan.onTableAt }) }]
}

type Span = { from: Date; to?: Date }

/**
 * An oven asks for somebody the whole time; one that is filled again and again has an event for each filling, whatever stages
 * a bake is made of. Hands that no plan has placed are at a stage's start.
 */
function spansOf({ stage, startsAt, endsAt, handsOn }: DayStage, { stages, loads }: DayPlan): Span[] {
  if (stage.kind === "bake" && loads.length > 1) {
    const isFirst = stages.find((other) => other.stage.kind === "bake")?.stage.key === stage.key
    return isFirst ? loads.map((load) => ({ from: load.startsAt, to: load.endsAt })) : []
  }
  if (stage.kind === "bake") return [{ from: startsAt, to: endsAt }]
  if (handsOn.length) return handsOn
  if (!stage.handsOnMin) return []
  const handsOff = new Date(+startsAt + stage.handsOnMin * minuteMs)
  return [{ from: startsAt, to: endsAt > startsAt && handsOff > endsAt ? endsAt : handsOff }]
}

/** Which of several; hands in the middle of a bulk fold the dough. */
function whichOf(span: Span, spans: Span[], { stage, startsAt }: DayStage) {
  const folds = stage.kind === "bulk" ? spans.filter(({ from }) => +from >= +startsAt + minuteMs) : []
  if (folds.includes(span)) return `fold${numbered(folds.indexOf(span), folds)}`
  if (spans.length === 1) return ""
  return `${stage.kind === "bake" ? "load" : "hands on"}${numbered(spans.indexOf(span), spans)}`
}
const numbered = (at: number, { length }: Span[]) => (length > 1 ? ` ${at + 1} of ${length}` : "")

const minuteMs = 60_000
const minuteOf = (at: Date) => new Date(Math.floor(+at / minuteMs) * minuteMs)

function inMinutes({ from, to }: Span): Span {
  const begins = minuteOf(from)
  const ends = to && minuteOf(to)
  return ends && ends > begins ? { from: begins, to: ends } : { from: begins }
}
