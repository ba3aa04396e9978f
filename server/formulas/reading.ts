import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { readTemperature, type TemperatureUnit } from "../dough/readings.ts"
import { type Stage, stageKinds } from "../dough/schedule.ts"
import type { FormulaContent } from "./content.ts"
import { readDuration } from "./durations.ts"
import { isBlank, type TypedFormula, type TypedPart, type TypedStage } from "./typed.ts"

type Errors = Record<string, string>
type Note = (field: string, message: string) => void
type Line = FormulaContent["parts"][number]["lines"][number]

/**
 * What a formula's form says, spare lines included, with one sentence per field in which nothing sensible stands; such a
 * field reads as blank. An amount that cannot be read is no error: a formula may be incomplete, and keeps it as typed.
 */
export function readFormula(typed: TypedFormula, unit: TemperatureUnit) {
  const errors: Errors = {}
  const note: Note = (field, message) => {
    errors[field] = message
  }
  const short = (field: string, text: string, most = 200) => {
    if (text.length > most) note(field, `Keep it under ${most} characters.`)
    return text.trim()
  }
  const title = short("title", typed.title, 120)
  if (!title) note("title", "Give the formula a name.")
  const content: FormulaContent = {
    about: short("about", typed.about, 2000),
    pieces: short("pieces", typed.pieces, 60),
    pieceMass: short("pieceMass", typed.pieceMass, 60),
    pan: short("pan", typed.pan),
    parts: typed.parts.map((part, index) => readPart(part, `parts.${index}`, typed.parts, short, note)),
    stages: typed.stages.map((stage, index) => readStage(stage, `stages.${index}`, unit, short, note)),
  }
  return { title, content, errors }
}

/** What is kept: without the spare lines. */
export function withoutSpareLines(content: FormulaContent): FormulaContent {
  return {
    ...content,
    parts: content.parts.map((part) => ({ ...part, lines: part.lines.filter((line) => !isBlank(line)) })),
  }
}

/** Why a formula cannot be published yet, in a sentence; undefined when a class can bake from it. */
export function notReady({ parts, stages }: FormulaContent): string | undefined {
  if (!parts.some(({ goesInto, lines }) => goesInto === "" && lines.some((line) => !isBlank(line))))
    return "There is nothing to bake from yet: write at least one line into a final dough, a part that goes into no other."
  if (!stages.length) return "There is no stage yet: add at least one, so that the class knows what to do when."
  const timeless = stages.find(({ highMin }) => highMin === 0)
  if (timeless) return `Say how long “${timeless.name}” takes: a schedule cannot be counted back without it.`
}

type Short = (field: string, text: string, most?: number) => string

function readPart(part: TypedPart, at: string, parts: TypedPart[], short: Short, note: Note) {
  const goesInto = part.goesInto
  if (goesInto && !parts.some(({ key }) => key === goesInto && key !== part.key))
    note(`${at}.goesInto`, "Choose one of the other parts.")
  const stays = part.staysPercent.trim()
  if (stays && !(shareOf(stays) <= 99.9)) note(`${at}.staysPercent`, "Give a percentage from 0 to 99.9.")
  return {
    key: part.key,
    name: short(`${at}.name`, part.name),
    goesInto,
    staysPercent: stays,
    lines: part.lines.map((line, index): Line => {
      const field = `${at}.lines.${index}`
      return {
        quantity: short(`${field}.quantity`, line.quantity, 60),
        ingredient: short(`${field}.ingredient`, line.ingredient),
        note: short(`${field}.note`, line.note),
        countsAs: isCountsAs(line.countsAs) ? line.countsAs : "",
      }
    }),
  }
}

const shareOf = (text: string) => Number(/^(\d+(?:[.,]\d+)?) ?%?$/.exec(text)?.[1]?.replace(",", ".") ?? Number.NaN)
const isCountsAs = (text: string): text is keyof typeof countsAsNames => Object.hasOwn(countsAsNames, text)

function readStage(stage: TypedStage, at: string, unit: TemperatureUnit, short: Short, note: Note): Stage {
  const duration = (field: string, text: string) => {
    const read = readDuration(text)
    if ("value" in read) return read.value
    note(field, read.error)
    return { low: 0, high: 0 }
  }
  const kind = stageKinds.find((one) => one === stage.kind) ?? "rest"
  const { low: lowMin, high: highMin } = duration(`${at}.lasts`, stage.lasts)
  const handsOn = duration(`${at}.handsOn`, stage.handsOn)
  if (handsOn.low !== handsOn.high) note(`${at}.handsOn`, "Give one time, not a range.")
  const temperature = stage.reference.trim() ? readTemperature(stage.reference, unit, "dough") : undefined
  if (temperature && "error" in temperature) note(`${at}.reference`, temperature.error)
  return {
    key: stage.key,
    kind,
    name: short(`${at}.name`, stage.name) || `${kind.charAt(0).toUpperCase()}${kind.slice(1)}`,
    lowMin,
    highMin,
    ...(temperature && "value" in temperature ? { referenceC: temperature.value } : {}),
    drivenByTemperature: stage.driven === "yes",
    handsOnMin: handsOn.high,
    cue: short(`${at}.cue`, stage.cue, 1000),
    tip: short(`${at}.tip`, stage.tip, 1000),
  }
}
