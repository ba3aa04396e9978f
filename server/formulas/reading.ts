import type { WrittenLine as Line, Swap, Variant } from "../dough/formula/written.ts"
import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import { readQuantity } from "../dough/quantity/read.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import { readTemperature, type TemperatureUnit } from "../dough/readings.ts"
import { type Stage, stageKinds } from "../dough/schedule.ts"
import { type FormulaContent, problemsOf } from "./content.ts"
import { readDuration } from "./durations.ts"
import {
  isBlank,
  leftOut,
  type TypedFormula,
  type TypedLine,
  type TypedPart,
  type TypedStage,
  type TypedSwap,
  type TypedVariant,
} from "./typed.ts"

type Errors = Record<string, string>
type Note = (field: string, message: string) => void

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
    measures: isMeasures(typed.measures) ? typed.measures : "us",
    pieces: short("pieces", typed.pieces, 60),
    pieceMass: short("pieceMass", typed.pieceMass, 60),
    pieceTolerance: short("pieceTolerance", typed.pieceTolerance, 60),
    pan: short("pan", typed.pan),
    parts: typed.parts.map((part, index) => readPart(part, `parts.${index}`, typed.parts, short, note)),
    finishing: typed.finishing.map((line, index) => readLine(line, `finishing.${index}`, short)),
    variants: typed.variants.map((variant, index) => readVariant(variant, `variants.${index}`, typed, short, note)),
    stages: typed.stages.map((stage, index) => readStage(stage, `stages.${index}`, unit, short, note)),
  }
  return { title, content, errors }
}

/** What is kept: without the rows in which nothing stands. */
export function withoutSpareLines(content: FormulaContent): FormulaContent {
  const used = (lines: Line[]) => lines.filter((line) => !isBlank(line))
  const usedSwap = ({ part, lines }: Swap) => part !== "" || lines.length > 0
  return {
    ...content,
    parts: content.parts.map((part) => ({ ...part, lines: used(part.lines) })),
    finishing: used(content.finishing),
    variants: content.variants
      .map((variant) => ({
        ...variant,
        swaps: variant.swaps.map((swap) => ({ ...swap, lines: used(swap.lines) })).filter(usedSwap),
      }))
      .filter(({ name, about, swaps }) => name || about || swaps.length),
  }
}

/** Why a formula cannot be published yet, in a sentence; undefined when a class can bake from it. */
export function notReady(content: FormulaContent): string | undefined {
  const { parts, stages, variants } = content
  if (!parts.some(({ goesInto, lines }) => goesInto === "" && lines.some((line) => !isBlank(line))))
    return "There is nothing to bake from yet: write at least one line into a final dough, a part that goes into no other."
  if (!stages.length) return "There is no stage yet: add at least one, so that the class knows what to do when."
  const timeless = stages.find(({ highMin }) => highMin === 0)
  if (timeless) return `Say how long “${timeless.name}” takes: a schedule cannot be counted back without it.`
  return variants.flatMap(({ key }) => problemsOf(content, key))[0]
}

type Short = (field: string, text: string, most?: number) => string

function readPart(part: TypedPart, at: string, parts: TypedPart[], short: Short, note: Note) {
  const goesInto = part.goesInto
  if (goesInto && !parts.some(({ key }) => key === goesInto && key !== part.key))
    note(`${at}.goesInto`, "Choose one of the other parts.")
  const stays = part.staysPercent.trim()
  if (stays && !staysLikely(stays))
    note(`${at}.staysPercent`, "Give a percentage from 0 to 99.9, or a mass such as 45 g.")
  return {
    key: part.key,
    name: short(`${at}.name`, part.name),
    goesInto,
    staysPercent: stays,
    lines: part.lines.map((line, index) => readLine(line, `${at}.lines.${index}`, short)),
  }
}

function readLine(line: TypedLine, at: string, short: Short): Line {
  return {
    quantity: short(`${at}.quantity`, line.quantity, 120),
    readAs: short(`${at}.readAs`, line.readAs, 120),
    ingredient: short(`${at}.ingredient`, line.ingredient),
    note: short(`${at}.note`, line.note),
    countsAs: isCountsAs(line.countsAs) ? line.countsAs : "",
  }
}

/** Whatever is chosen of a variant that is not named, or of nothing, is asked for; an empty one is left to be dropped. */
function readVariant(variant: TypedVariant, at: string, typed: TypedFormula, short: Short, note: Note): Variant {
  const swaps = variant.swaps.map((swap, index) => readSwap(swap, `${at}.swaps.${index}`, typed.parts, short, note))
  const times = variant.times.flatMap((time, index) => readTime(time, `${at}.times.${index}`, typed.stages, note))
  const name = short(`${at}.name`, variant.name, 120)
  const about = short(`${at}.about`, variant.about, 1000)
  const used = about || times.length || swaps.some(({ part }) => part)
  if (used && !name) note(`${at}.name`, "Give it a name by which it can be picked.")
  return { key: variant.key, name, about, swaps, times }
}

function readSwap({ insteadOf, lines }: TypedSwap, at: string, parts: TypedPart[], short: Short, note: Note): Swap {
  const slash = insteadOf.indexOf("/")
  const part = insteadOf.slice(0, Math.max(0, slash))
  const known = parts.some(({ key }) => key === part)
  if (!known && (insteadOf || lines.some((line) => !isBlank(line))))
    note(`${at}.insteadOf`, "Choose the line or the part whose place this takes.")
  return {
    part: known ? part : "",
    insteadOf: known ? insteadOf.slice(slash + 1) : "",
    lines: lines.map((line, index) => readLine(line, `${at}.lines.${index}`, short)),
  }
}

/** Nothing for a time left blank: the variant then takes as long as the formula. "none" leaves the stage out. */
function readTime(
  { stageKey, lasts }: { stageKey: string; lasts: string },
  at: string,
  stages: TypedStage[],
  note: Note,
) {
  const text = lasts.trim()
  if (text === "" || !stages.some(({ key }) => key === stageKey)) return []
  const read = readDuration(text.toLowerCase() === leftOut ? "0" : text)
  if ("value" in read) return [{ stageKey, lowMin: read.value.low, highMin: read.value.high }]
  note(`${at}.lasts`, read.error)
  return []
}

/** "10", "2,5 %", or a mass such as "45 g". */
function staysLikely(text: string) {
  const share = /^(\d+(?:[.,]\d+)?) ?%?$/.exec(text)?.[1]
  if (share) return Number(share.replace(",", ".")) <= 99.9
  return readQuantity(text).kind === "mass"
}

const isMeasures = (text: string): text is Measures => Object.hasOwn(measureNames, text)
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
