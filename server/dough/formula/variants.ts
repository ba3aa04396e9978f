import { capital } from "./gaps.ts"
import { sameWords } from "./lines.ts"
import { nameOf } from "./parts.ts"
import type { StageTime, Swap, Variant, WrittenFormula, WrittenLine, WrittenPart } from "./written.ts"

/** A formula with a variant applied, and in words what of it no longer fits the formula. */
export type Applied = { formula: WrittenFormula; problems: string[] }

/**
 * The formula as its variant of that key makes it: a plain formula again, so that every figure follows. "" and a key that
 * no variant has leave it as it is, the second with a problem. The formula handed in stays untouched.
 */
export function applyVariant(formula: WrittenFormula, key: string): Applied {
  if (key === "") return { formula, problems: [] }
  const variant = formula.variants.find((one) => one.key === key)
  if (!variant) return { formula, problems: ["The variant that was chosen is no longer there."] }
  const problems: string[] = []
  let { parts } = formula
  for (const swap of variant.swaps) {
    const swapped = swap.insteadOf.trim() ? swapLine(parts, swap) : swapPart(parts, swap)
    parts = swapped.parts
    if (swapped.problem) problems.push(`${capital(variant.name)}: ${swapped.problem}`)
  }
  return { formula: { ...formula, parts }, problems }
}

/** Stages with a variant's times in place of their own, without those that it leaves out; `problems` as in applyVariant. */
export function applyTimes<Timed extends { key: string; lowMin: number; highMin: number }>(
  stages: Timed[],
  { name, times }: Pick<Variant, "name" | "times">,
): { stages: Timed[]; problems: string[] } {
  const timeOf = new Map(times.map((time): [string, StageTime] => [time.stageKey, time]))
  const missing = times.filter(({ stageKey }) => !stages.some(({ key }) => key === stageKey))
  return {
    stages: stages.flatMap((stage) => {
      const { lowMin, highMin } = timeOf.get(stage.key) ?? stage
      return timeOf.has(stage.key) && highMin === 0 ? [] : [{ ...stage, lowMin, highMin }]
    }),
    problems: missing.length ? [`${capital(name)}: a stage that it gives a time for is no longer there.`] : [],
  }
}

type Swapped = { parts: WrittenPart[]; problem?: string }

function swapLine(parts: WrittenPart[], { part: key, insteadOf, lines }: Swap): Swapped {
  const part = parts.find((one) => one.key === key)
  if (!part) return { parts, problem: `the part with ${insteadOf} in it is no longer there.` }
  const places = part.lines.flatMap(({ ingredient }, index) => (sameWords(ingredient, insteadOf) ? [index] : []))
  const [first] = places
  if (first === undefined) return { parts, problem: `${insteadOf} is no longer in ${nameOf(part)}.` }
  const problem =
    places.length > 1 ? `${nameOf(part)} has ${insteadOf} in ${places.length} lines; the first is swapped.` : undefined
  return { parts: withLines(parts, key, part.lines.toSpliced(first, 1, ...lines)), problem }
}

/** The parts with `lines` in place of a whole part, which takes along those that were only made for it; a problem where that cannot be. */
export function swapPart(parts: WrittenPart[], { part: key, lines }: Swap): Swapped {
  const part = parts.find((one) => one.key === key)
  if (!part) return { parts, problem: "the part that it swaps is no longer there." }
  if (part.goesInto === "") return { parts: withLines(parts, key, lines) }
  const into = parts.find((one) => one.key === part.goesInto)
  if (!into) return { parts, problem: `${nameOf(part)} goes into no part in which something could take its place.` }
  const gone = madeFor(parts, key)
  // a line that only repeated the part would count once the part is gone
  const rest = into.lines.filter(({ ingredient }) => !sameWords(ingredient, nameOf(part)))
  const left = parts.filter((one) => !gone.has(one.key))
  return { parts: withLines(left, into.key, [...rest, ...lines]) }
}

const withLines = (parts: WrittenPart[], key: string, lines: WrittenLine[]) =>
  parts.map((part) => (part.key === key ? { ...part, lines } : part))

/** The part itself, those that go into it, and so on. */
function madeFor(parts: WrittenPart[], key: string): Set<string> {
  const gone = new Set([key])
  for (const each of gone) for (const part of parts) if (part.goesInto === each) gone.add(part.key)
  return gone
}
