import type { Say } from "../accounts/say.ts"
import { countBack, type PlannedStage } from "../dough/schedule.ts"
import type { Caution } from "../formulas/caution.ts"
import type { OwnDay } from "../plans/day.ts"
import { placeNames } from "../plans/words.ts"
import { bold, columnsMm, cut, lineMm, linesIn, page, rowMm, type Step, stepFor } from "./fit.ts"

/** One person's own day on one page, with boxes to write into what it really was. */
export function daySheet(day: OwnDay, cautions: Caution[], say: Say) {
  const rows = rowsOf(day, say)
  const short = cautions.map((one) => one.short)
  const title = day.bakeDay.title
  const least = stepFor((asked) => heightMm(title, rows, short, asked))
  // what is left of the page makes room for a floury hand
  const boxMm = boxes.find((mm) => heightMm(title, rows, short, { ...least, boxMm: mm }) <= page.heightMm)
  const step = { ...least, boxMm: Math.max(boxMm ?? 0, least.boxMm) }
  return {
    ...{ title, short, step },
    fits: day.answer.fits,
    rows: rows.map((row) => ({ ...row, words: wordsOf(row, step) })),
    onTable: say.dayAndTime(day.onTableAt),
  }
}

/** Those that static/paper.css has, mm. */
const boxes = [18, 16, 14, 13, 12, 11, 10, 9, 8, 7]

type DayRow = { date: string; name: string; place: string; times: string; slack: string; cue: string }

function rowsOf({ answer, content, kitchen, onTableAt }: OwnDay, say: Say): DayRow[] {
  const names = placeNames(kitchen)
  const planned: (PlannedStage & { place?: keyof typeof names })[] =
    answer.plan?.stages ?? countBack(content.stages, onTableAt)
  let date = ""
  return planned.map(({ stage, startsAt, endsAt, earliestStart, latestStart, place }) => {
    const own = say.day(startsAt)
    const isNew = own !== date
    date = own
    const [from, to] = [say.time(earliestStart), say.time(latestStart)]
    return {
      ...{ date: isNew ? own : "", name: stage.name, cue: stage.cue.replace(/\s+/g, " ") },
      place: stage.kind === "bake" ? "oven" : place && stage.kind !== "cool" ? names[place] : "",
      times: `${say.time(startsAt)} – ${say.time(endsAt)}`,
      slack: from === to ? "" : `${from} to ${to}`,
    }
  })
}

/** Where it stands and until when, beside the name of a stage. */
const wordsOf = ({ place, cue }: DayRow, step: Step) =>
  step.cue === 0 ? "" : [place, cut(cue, Math.min(step.cue, 160))].filter(Boolean).join(" · ")

// Widths of the columns as in static/paper.css, mm.
const columns = { stage: 46, times: 36 } as const

function heightMm(title: string, rows: DayRow[], short: string[], step: Step): number {
  const { pt, boxMm } = step
  const line = lineMm(pt)
  const head = linesIn(title, page.widthMm, pt * 1.7) * line * 1.7 + line + 12
  const stages = rows.map((row) => {
    const words = wordsOf(row, step)
    const what = linesIn(row.name, columns.stage / bold, pt) + (words ? linesIn(words, columns.stage, pt) : 0)
    const when = linesIn(row.times, columns.times / bold, pt) + (row.slack ? linesIn(row.slack, columns.times, pt) : 0)
    return Math.max(Math.max(what, when) * line + 1, boxMm) + (row.date ? rowMm([[row.date, 100]], pt, 1) : 0)
  })
  const result = boxMm < 10 ? 24 : 36
  return head + 3 * line + 2 + stages.reduce((sum, one) => sum + one, 0) + result + columnsMm(short, pt)
}
