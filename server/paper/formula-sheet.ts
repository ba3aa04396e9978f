import { sayTo } from "../accounts/say.ts"
import type { Figures } from "../dough/formula/formula.ts"
import { showMass, showRange, showShare } from "../dough/units.ts"
import type { Caution } from "../formulas/caution.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { amountsOf, bothTemperatures, lineOf, type PaperLine } from "./amounts.ts"
import { bold, columnsMm, cut, lineMm, linesIn, page, rowMm, type Step, stepFor } from "./fit.ts"

type Formula = { title: string; content: FormulaContent; figures: Figures; cautions: Caution[] }

/** A formula as it stands on one page: both units, half a batch, stages, cautions in short. */
export function formulaSheet({ title, content, figures, cautions }: Formula) {
  const groups = groupsOf(content, figures)
  const totals = totalsOf(figures, content.pan)
  const about = content.about.replace(/\s+/g, " ").trim()
  const dough = figures.dough ? amountsOf(figures.dough) : undefined
  const short = cautions.map((one) => one.short)
  const step = stepFor((asked) => heightMm({ title, about, groups, totals, short, content }, asked))
  return {
    ...{ title, groups, totals, dough, short, step },
    about: cut(about, step.cue),
    stages: stagesOf(content, step),
    withHandsOn: withHandsOn(step),
  }
}

export type Group = { name: string; about: string; lines: PaperLine[] }

function groupsOf({ parts, finishing }: FormulaContent, figures: Figures): Group[] {
  const nameOf = (name: string) => name || "A part without a name"
  const inParts = parts.map((part, at) => {
    const worked = figures.parts[at]!
    const into = parts.find(({ key }) => key === part.goesInto)
    const children = parts.flatMap((child, childAt) => {
      const used = figures.parts[childAt]!.used
      return child.goesInto === part.key && child.lines.length ? [{ name: nameOf(child.name), used }] : []
    })
    const weighed = children.flatMap(({ name, used }) =>
      used?.high ? [{ ...all(name), amounts: amountsOf(used) }] : [],
    )
    const unweighed = children.filter(({ used }) => !used?.high).map(({ name }) => name)
    const without = unweighed.length ? [all(unweighed.join(", "))] : []
    const about = [
      worked.hydration && `hydration ${showRange(worked.hydration, showShare)}`,
      into && `goes into ${nameOf(into.name)}`,
      into &&
        part.staysPercent &&
        `${part.staysPercent}${/^[\d.,]+$/.test(part.staysPercent) ? " %" : ""} stays in its jar`,
    ]
    const lines = part.lines.map((line, lineAt) => lineOf(line, worked.lines[lineAt]!))
    return {
      name: nameOf(part.name),
      about: about.filter(Boolean).join(" · "),
      lines: [...lines, ...weighed, ...without],
    }
  })
  const outside = finishing.map((line, at) => lineOf(line, figures.finishing[at]!))
  return [
    ...inParts,
    ...(outside.length ? [{ name: "On and around it", about: "outside the dough", lines: outside }] : []),
  ]
}

const all = (ingredient: string) => ({ ingredient, note: "all of it", typed: "", percent: "" })

function totalsOf({ flour, hydration, wholeHydration, salt, prefermented, pieces }: Figures, pan: string) {
  const percent = (range: Figures["salt"]) => range && showRange(range, showShare)
  const both = (range: Figures["flour"]) =>
    range?.high
      ? (["g", "oz"] as const).map((unit) => showRange(range, (one) => showMass(one, unit))).join(", ")
      : undefined
  const wetter = hydration && wholeHydration && wholeHydration.high - hydration.high > 0.005
  const rows: [string, string | undefined][] = [
    ["Flour in all parts", both(flour)],
    ["Hydration", percent(hydration)],
    ["With all water", wetter ? percent(wholeHydration) : undefined],
    ["Salt", percent(salt)],
    ["Prefermented flour", percent(prefermented)],
    ["Pieces", pieces && [pieces.count, both(pieces.eachG)].filter(Boolean).join(" × ")],
    ["Pan", pan || undefined],
  ]
  return rows.flatMap(([name, value]) => (value ? [{ name, value }] : []))
}

function stagesOf({ stages }: FormulaContent, { cue }: Step) {
  const say = sayTo(undefined)
  return stages.map(({ name, lowMin, highMin, referenceC, ...stage }) => ({
    name,
    takes: highMin ? say.minutesRange(lowMin, highMin) : "",
    handsOn: stage.handsOnMin ? say.minutes(stage.handsOnMin) : "",
    dough: referenceC === undefined ? "" : bothTemperatures(referenceC),
    words: cut([stage.cue, stage.tip].filter(Boolean).join(" · ").replace(/\s+/g, " "), cue),
  }))
}

// Widths of the columns as in static/paper.css, mm.
const columns = { stage: 44, takes: 30, words: 60, wordsAlone: 82 } as const

const ingredientMm = (pt: number) => (pt < 8.5 ? 68 : 58)

/** Small type leaves no room for the column of what somebody has to be there for. */
const withHandsOn = ({ pt }: Step) => pt >= 9

type Measured = {
  title: string
  about: string
  groups: Group[]
  totals: { name: string; value: string }[]
  short: string[]
  content: FormulaContent
}

function heightMm({ title, about, groups, totals, short, content }: Measured, step: Step): number {
  const { pt } = step
  const line = lineMm(pt)
  const head = linesIn(title, page.widthMm, pt * 1.7) * line * 1.7 + line + 1
  const told = cut(about, step.cue)
  const said = totals.map(({ name, value }) => `${name} ${value}    `).join("")
  const around = aroundMm(pt)
  const lines = groups.flatMap((group) => [
    rowMm([[`${group.name} ${group.about}`, page.widthMm / bold]], pt, around + 0.4),
    ...group.lines.map(({ ingredient, note, typed }) =>
      rowMm([[[ingredient, note, typed].filter(Boolean).join(" "), ingredientMm(pt)]], pt, around),
    ),
  ])
  const wordsMm = withHandsOn(step) ? columns.words : columns.wordsAlone
  const stages = stagesOf(content, step).map(({ name, words, takes }) =>
    rowMm(
      [
        [name, columns.stage / bold],
        [takes, columns.takes],
        [words, wordsMm],
      ],
      pt,
      around,
    ),
  )
  const inTwo = step.cue === 0 ? 2 : 1
  const heads = 4 * (line + around) + 3
  return (
    head +
    (told ? linesIn(told, page.widthMm, pt) * line : 0) +
    (linesIn(said, page.widthMm, pt) * line + 2) +
    sum(lines) +
    Math.ceil(sum(stages) / inTwo) +
    columnsMm(short, pt) +
    heads
  )
}

/** The room around the lines of a row; less of it where type is small. */
const aroundMm = (pt: number) => (pt < 9 ? 0.5 : 0.9)
const sum = (all: number[]) => all.reduce((total, one) => total + one, 0)
