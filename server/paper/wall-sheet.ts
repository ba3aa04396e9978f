import type { Say } from "../accounts/say.ts"
import type { BakeDay } from "../bake-days/queries.ts"
import { suggestedOnTableAt } from "../bake-days/window.ts"
import type { Figures } from "../dough/formula/formula.ts"
import { countBack, type StageKind } from "../dough/schedule.ts"
import type { Caution } from "../formulas/caution.ts"
import { bothTemperatures } from "./amounts.ts"
import { columnsMm, cut, lineMm, linesIn, page, type Step, stepFor } from "./fit.ts"

type Wall = { bakeDay: BakeDay; figures: Figures; cautions: Caution[]; students: string[]; say: Say; now: Date }

/** The class's sheet for the wall: the instructor's schedule large, the formula in short, and a row for each student. */
export function wallSheet({ bakeDay, figures, cautions, students, say, now }: Wall) {
  const { zone, content } = bakeDay
  const onTableAt = suggestedOnTableAt(bakeDay, now)
  let date = ""
  const schedule = countBack(content.stages, onTableAt).map(({ stage, startsAt }) => {
    const own = say.day(startsAt, zone)
    const isNew = own !== date
    date = own
    return { date: isNew ? own : "", time: say.time(startsAt, zone), name: stage.name }
  })
  const targets = [
    bakeDay.targetDoughC !== null && `Dough ${bothTemperatures(bakeDay.targetDoughC)}`,
    bakeDay.targetRise !== null && `Rise before shaping ${say.rise(bakeDay.targetRise)}`,
  ].filter((one) => one !== false)
  const parts = partsOf(bakeDay, figures, say)
  // what anybody at home has to be told stays off the wall of a class: of raw, heat and the like the short form is enough
  const short = cautions.map((one) => one.short)
  const lookFor = bakeDay.lookFor.replace(/\s+/g, " ").trim()
  const side = { schedule, parts, short, targets, lookFor, title: bakeDay.title }
  const step = stepFor((asked) => heightMm(side, students.length, asked))
  const beside = besideMm(side, students.length, step) <= page.heightMm
  const rowsMm = rowHeight(side, students.length, step, beside)
  // as large as there is room for
  const large = larger.find((times) => beside && besideMm(side, students.length, step, times) <= page.heightMm) ?? usual
  return {
    ...{ ...side, students, step, rowsMm, beside, large },
    columns: columnsFor(content.stages.map(({ kind }) => kind)),
    lookFor: cut(lookFor, Math.max(step.cue * 2, 120)),
    onTable: {
      time: say.time(onTableAt, zone),
      date: say.day(onTableAt, zone) === date ? "" : say.day(onTableAt, zone),
    },
    zoneName: say.zoneName(zone),
    overflows: step.overflows || rowsMm === undefined,
  }
}

function partsOf({ content }: BakeDay, figures: Figures, say: Say) {
  const lineWords = (ingredient: string, typed: string, of: Figures["finishing"][number]) => {
    const amount = of.g?.high ? say.massRange(of.g) : typed
    return `${ingredient} ${amount}${of.share ? ` (${say.percentRange(of.share)})` : ""}`.trim()
  }
  const parts = content.parts.map(({ name, lines }, at) => ({
    name: name || "A part without a name",
    words: lines.map((line, lineAt) => lineWords(line.ingredient, line.quantity, figures.parts[at]!.lines[lineAt]!)),
  }))
  const outside = content.finishing.map((line, at) => lineWords(line.ingredient, line.quantity, figures.finishing[at]!))
  return [...parts, ...(outside.length ? [{ name: "On and around it", words: outside }] : [])].map((part) => ({
    name: part.name,
    words: part.words.join(" · "),
  }))
}

/** What is written beside each name: only what this formula has, and no more than there is room for. */
function columnsFor(kinds: StageKind[]): { head: string; unit: "time" | "degrees" | "free" }[] {
  const has = (...some: StageKind[]) => some.some((kind) => kinds.includes(kind))
  return [
    { head: "Mixed", unit: "time" as const },
    { head: "Dough", unit: "degrees" as const },
    { head: "Room", unit: "degrees" as const },
    ...(has("bulk", "fold", "proof") ? [{ head: "Rise", unit: "free" as const }] : []),
    ...(has("divide", "shape") ? [{ head: "Shaped", unit: "time" as const }] : []),
    ...(has("retard") ? [{ head: "Into the cold", unit: "time" as const }] : []),
    { head: "Oven in", unit: "time" as const },
    { head: "Out", unit: "time" as const },
    { head: "Inside", unit: "degrees" as const },
  ]
}

const rowHeights = [14, 12, 10, 9, 8, 7, 6.5, 6, 5.5, 5, 4.5, 4]

/** The highest rows, mm, at which every student has one; undefined for a class that has to take a second page. */
function rowHeight(side: Side, students: number, step: Step, beside: boolean): number | undefined {
  const underMm = beside ? 0 : wholeMm(side, page.widthMm, step)
  const leftMm = page.heightMm - headMm(side.title, step) - underMm - gridHeadMm(step)
  return rowHeights.find((mm) => students * (mm + 0.3) <= leftMm)
}

// The left-hand column, as in static/paper.css, mm.
const sideWidthMm = 60

type Side = {
  title: string
  schedule: { date: string; name: string }[]
  parts: { name: string; words: string }[]
  short: string[]
  targets: string[]
  lookFor: string
}

/** How much larger than the rest the schedule is; static/paper.css has these. */
const [usual, larger] = [1.35, [2.2, 1.9, 1.6]]

/** Formula and cautions stand under the schedule where they have room, else under everything. */
const heightMm = (side: Side, students: number, step: Step) =>
  Math.min(besideMm(side, students, step), underMm(side, students, step))

function besideMm(side: Side, students: number, step: Step, large = usual): number {
  const left = sideMm(side, step, large) + wholeMm(side, sideWidthMm, step)
  return headMm(side.title, step) + Math.max(left, rowsMm(students, step))
}

function underMm(side: Side, students: number, step: Step): number {
  const above = Math.max(sideMm(side, step), rowsMm(students, step))
  return headMm(side.title, step) + above + wholeMm(side, page.widthMm, step)
}

/** The least that rows take which are still written into. */
const rowsMm = (students: number, step: Step) => students * Math.max(4.3, step.pt * 0.65) + gridHeadMm(step)

const headMm = (title: string, { pt }: Step) =>
  linesIn(title, page.widthMm, pt * 1.7) * lineMm(pt * 1.7) + lineMm(pt) + 1
const gridHeadMm = ({ pt }: Step) => 3 * lineMm(pt * 0.72) + 3

/** Schedule, large, and what to look for. */
function sideMm({ schedule, targets, lookFor }: Side, { pt, cue }: Step, large = usual): number {
  const line = lineMm(pt)
  const text = (words: string) => linesIn(words, sideWidthMm, pt) * line
  const times = [...schedule, { name: "On the table", date: "" }].map(({ name, date }) => {
    const lines = linesIn(name, sideWidthMm - pt * 1.4 * large, pt * large)
    return lines * lineMm(pt * large) + (date ? line : 0) + 0.5
  })
  const told = [...targets.map(text), text(cut(lookFor, Math.max(cue * 2, 120)))]
  return [...times, ...told].reduce((sum, one) => sum + one, line + 2)
}

/** The formula and what to mind, in so wide a column. */
function wholeMm({ parts, short }: Side, widthMm: number, { pt }: Step): number {
  const lines = parts.map(({ name, words }) => linesIn(`${name}: ${words}`, widthMm, pt))
  const mind =
    widthMm === page.widthMm
      ? columnsMm(short, pt)
      : short.reduce((sum, words) => sum + linesIn(words, widthMm - 5, pt), 1) * lineMm(pt) + 3
  return lines.reduce((sum, one) => sum + one, 1) * lineMm(pt) + 3 + mind
}
