import { type Candidate, candidatesFor } from "./candidates.ts"
import { withChange } from "./changed.ts"
import type { DayQuestion, Suggestion } from "./day.ts"
import { fitDay } from "./fit-day.ts"
import { type OtherTimes, otherTimes } from "./relaxed.ts"
import type { Kitchen } from "./standing.ts"

type Found = { effort: number; suggestion: Suggestion }

const mostSuggestions = 3

/**
 * The smallest changes that make a day fit, each tried: one of each kind, and where no single one does, two together. [] only
 * when none does. Throws like planDay.
 */
export function suggestionsFor(question: DayQuestion, kitchen: Kitchen, times: OtherTimes): Suggestion[] {
  const candidates = candidatesFor(question)
  const singles = [...timesFor(question, kitchen, times), ...oneOfEachKind(question, kitchen, candidates)]
  return least(singles.length ? singles : pairs(question, kitchen, candidates))
}

const least = (found: Found[]) =>
  found
    .sort((a, b) => a.effort - b.effort)
    .slice(0, mostSuggestions)
    .map(({ suggestion }) => suggestion)

/** Of each kind the smallest change that does. */
function oneOfEachKind(question: DayQuestion, kitchen: Kitchen, candidates: Candidate[]): Found[] {
  const found = new Map<string, Found>()
  for (const candidate of candidates) {
    if (found.has(candidate.kind)) continue
    const plan = fitDay(withChange(question, candidate.change), kitchen)
    const { effort, ...told } = candidate
    if (plan) found.set(candidate.kind, { effort, suggestion: { ...told, plan } })
  }
  return [...found.values()]
}

/** Later on the table, and sooner begun, by as little as does. */
function timesFor(question: DayQuestion, kitchen: Kitchen, { later, earlier }: OtherTimes): Found[] {
  return [
    ...(later ? laterBy(question, kitchen, later.task.untilMin) : []),
    ...(earlier ? begunFrom(question, kitchen, earlier.task.fromMin) : []),
  ]
}

function laterBy(question: DayQuestion, kitchen: Kitchen, min: number): Found[] {
  const exact = +question.onTableBy + min * minuteMs
  return firstThatFits([Math.ceil(exact / roundMs) * roundMs, exact], (ms): Found | undefined => {
    const change = { onTableBy: new Date(ms) }
    const plan = fitDay(withChange(question, change), kitchen)
    const laterMin = (ms - +question.onTableBy) / minuteMs
    return plan && { effort: laterMin, suggestion: { kind: "later", change, laterMin, plan } }
  })
}

function begunFrom(question: DayQuestion, kitchen: Kitchen, min: number): Found[] {
  const exact = +question.onTableBy + min * minuteMs
  return firstThatFits([Math.floor(exact / roundMs) * roundMs, exact], (ms): Found | undefined => {
    const change = { notBefore: new Date(ms) }
    const plan = fitDay(withChange(question, change), kitchen)
    const earlierMin = (+question.notBefore! - ms) / minuteMs
    return plan && { effort: earlierMin, suggestion: { kind: "start earlier", change, earlierMin, plan } }
  })
}
const minuteMs = 60_000
// People set their clocks by five minutes; every time zone is off from UTC by a multiple of them.
const roundMs = 5 * minuteMs

function firstThatFits(instants: number[], planAt: (ms: number) => Found | undefined): Found[] {
  for (const ms of instants) {
    const found = planAt(ms)
    if (found) return [found]
  }
  return []
}

/** Two changes together: one of those, then another, or later, or sooner; as few minutes and moves as go with the smallest first. */
function pairs(question: DayQuestion, kitchen: Kitchen, candidates: Candidate[]): Found[] {
  const found: Found[] = []
  for (const first of candidates) {
    const changed = withChange(question, first.change)
    const seconds = [
      ...timesFor(changed, kitchen, otherTimes(changed, kitchen)),
      ...oneOfEachKind(
        changed,
        kitchen,
        candidatesFor(changed).filter(({ kind }) => kind !== first.kind),
      ),
    ]
    for (const { effort, suggestion } of seconds) {
      const { kind, change, moves, ...told } = suggestion
      found.push({
        effort: first.effort + effort,
        suggestion: {
          ...told,
          ...{ kind: first.kind, also: kind, change: { ...first.change, ...change } },
          moves: [...(first.moves ?? []), ...(moves ?? [])],
        },
      })
    }
    if (found.length >= mostSuggestions) break
  }
  return found
}
