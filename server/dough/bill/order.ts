import type { Place } from "../formula/parts.ts"
import type { WrittenPart } from "../formula/written.ts"
import type { Stage } from "../schedule.ts"

/**
 * When a part is weighed: in the stage of that key, where its name or its place tells which; else `before` the stage in
 * which the part it goes into is mixed; neither where nothing tells. `part` is its place in the formula.
 */
export type Need = { part: number; stage?: string; before?: string }

/**
 * The parts in the order in which they are made: each after those that go into it and, of several that could come next, the
 * one whose stage is first; as written where nothing tells. Parts in a circle come last, so that none is lost. Never throws.
 */
export function orderOfNeed(parts: WrittenPart[], places: Place[], stages: Stage[]): Need[] {
  const at = parts.map((_, index) => stageOf(index, parts, places, stages))
  const due = (index: number) => at[index] ?? dueBy(index, places, at)
  const left = parts.map((_, index) => index)
  const order: number[] = []
  while (left.length) {
    const ready = left.filter((index) => places[index]!.childIndexes.every((child) => order.includes(child)))
    const next = (ready.length ? ready : left).toSorted((a, b) => due(a) - due(b) || a - b)[0]!
    order.push(next)
    left.splice(left.indexOf(next), 1)
  }
  return order.map((part) => needOf(part, places, at, stages))
}

/** The stage from which what goes on or around the dough is wanted: shaping, else proofing, else baking. */
export function finishingFrom(stages: Stage[]): string | undefined {
  const found = (["shape", "proof", "bake"] as const).map((kind) => stages.find((stage) => stage.kind === kind))
  return found.find((stage) => stage !== undefined)?.key
}

function needOf(part: number, places: Place[], at: (number | undefined)[], stages: Stage[]): Need {
  const own = at[part]
  if (own !== undefined) return { part, stage: stages[own]!.key }
  const by = dueBy(part, places, at)
  return Number.isFinite(by) ? { part, before: stages[Math.ceil(by)]!.key } : { part }
}

/** Just before the stage of the nearest part above whose stage is told; without one, after everything. */
function dueBy(index: number, places: Place[], at: (number | undefined)[]): number {
  const above = (places[index]!.chain ?? []).slice(1).find((part) => at[part] !== undefined)
  return above === undefined ? Number.POSITIVE_INFINITY : at[above]! - 0.5
}

/** Where a stage is named after a part it is that stage; a final dough otherwise has the first mixing that is nobody's. */
function stageOf(index: number, parts: WrittenPart[], places: Place[], stages: Stage[]): number | undefined {
  const final = parts.findIndex((_, at) => places[at]!.isFinal)
  const mixed = mixingOf(parts, places, stages)
  if (places[index]!.isFinal) {
    const named = places.filter(({ isFinal }) => isFinal).length > 1 ? namedAfter(parts[index]!, stages) : undefined
    return named ?? mixed
  }
  const named = namedAfter(parts[index]!, stages)
  // a stage that names the levain because it goes in there is not the one in which it is fed
  return named !== undefined && (final < 0 || mixed === undefined || named < mixed) ? named : undefined
}

function mixingOf(parts: WrittenPart[], places: Place[], stages: Stage[]): number | undefined {
  const mixings = stages.flatMap(({ kind }, at) => (kind === "mix" ? [at] : []))
  const ahead = parts.filter((_, at) => !places[at]!.isFinal)
  const isTheirs = (at: number) => ahead.some((part) => isNamedAfter(part, stages[at]!))
  const lastMixing = mixings.at(-1)
  return mixings.find((at) => !isTheirs(at)) ?? lastMixing
}

function namedAfter(part: WrittenPart, stages: Stage[]): number | undefined {
  const found = stages.findIndex((stage) => isNamedAfter(part, stage))
  return found < 0 ? undefined : found
}

const isNamedAfter = (part: WrittenPart, { name }: Stage) =>
  wordsIn(part.name).some((word) => wordsIn(name).some((other) => sameStem(word, other)))

const saysNothing = new Set("final dough main the a an of and for with in into part mix mixed".split(" "))

const wordsIn = (name: string) =>
  (name.toLowerCase().match(/\p{L}{3,}/gu) ?? []).filter((word) => !saysNothing.has(word)).map(oneWord)

/** "Feed the starter" is of the levain: the words overlap, see field notes on the trade's words. */
const oneWord = (word: string) => (/^(leaven|levain|starter|sourdough|sour)s?$/.test(word) ? "levain" : word)

// "soaker" and "soak", "oat" and "oats", but not "rye" and "rest": our own rule.
const sameStem = (one: string, other: string) => {
  const [short, long] = one.length < other.length ? [one, other] : [other, one]
  return long.startsWith(short) && long.length - short.length <= 3
}
