import type { SaidStep } from "../dough/text/said.ts"
import { plainText } from "./plain.ts"
import { isNode, isOf, type Node } from "./recipes-in.ts"

const mostWithTip = 990

/** The steps in a Recipe's instructions: texts, HowToStep, HowToSection, lists of any of them, one within the other. */
export function stepsIn(instructions: unknown, section = ""): SaidStep[] {
  let steps: SaidStep[] = []
  for (const one of listOf(instructions))
    if (isTip(one)) steps = withTip(steps, textIn(one.text) || textIn(one.name))
    else steps.push(...stepsOf(one))
  return section ? steps.map((step, at) => (at ? step : { ...step, section: joined(section, step.section) })) : steps
}

function stepsOf(one: unknown): SaidStep[] {
  if (typeof one === "string") return linesIn(one)
  if (!isNode(one)) return []
  const name = textIn(one.name)
  const inner = one.itemListElement ?? one.step ?? one.steps ?? one.item
  if (isOf(one, "HowToSection") || isOf(one, "ItemList")) return stepsIn(inner ?? textIn(one.text), name)
  const parts = listOf(inner)
  const tips = parts.filter(isTip).map(({ text, name }) => textIn(text) || textIn(name))
  const direct = parts.filter((part) => !isTip(part))
  const text = [textIn(one.text), ...direct.flatMap(stepsOf).map(wholeOf)].filter(Boolean).join("\n")
  const steps = linesIn(text || textIn(one.description) || name)
  if (text && name && steps[0]) steps[0] = { ...steps[0], name, from: `${name}: ${steps[0].from}` }
  return withTip(steps, tips.join(" "))
}

const isTip = (one: unknown): one is Node => isOf(one, "HowToTip")

/** The tip with the step it stands under, or a step of its own where it is too long for that. */
function withTip(steps: SaidStep[], tip: string): SaidStep[] {
  const last = steps.at(-1)
  if (!tip) return steps
  const tips = [last?.tip, tip].filter(Boolean).join(" ")
  if (!last || last.text.length + tips.length > mostWithTip) return [...steps, ...linesIn(tip)]
  return steps.with(-1, { ...last, tip: tips, from: `${last.from} ${tip}` })
}

const wholeOf = ({ section, name, text }: SaidStep) => [section, name, text].filter(Boolean).join(": ")
const linesIn = (text: string): SaidStep[] =>
  plainText(text)
    .split("\n")
    .filter((line) => line.trim())
    .map((line) => ({ text: line, from: line }))

const joined = (outer: string, inner: string | undefined) => [outer, inner].filter(Boolean).join(": ")
const listOf = (value: unknown): unknown[] => (value === undefined || value === null ? [] : [value].flat(2))

/** The words of a value: a text, a number, or a thing by its name or text. */
export function textIn(value: unknown): string {
  if (typeof value === "string") return plainText(value)
  if (typeof value === "number") return String(value)
  if (Array.isArray(value)) return value.map(textIn).filter(Boolean).join(", ")
  return isNode(value) ? textIn(value.name ?? value.text ?? value["@value"] ?? value["@id"] ?? value.url) : ""
}
