import { type Candidate, candidatesFor } from "./candidates.ts"
import { withChange } from "./changed.ts"
import type { DayQuestion, Suggestion } from "./day.ts"
import { fitDay, tasksOf } from "./fit-day.ts"
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
  if (!singles.length) return least(pairs(question, kitchen, candidates))
  return least(singles.length > 1 ? singles : [...singles, ...another(question, kitchen, candidates, singles[0]!)])
}

/** A second change of a kind that is the only one to do. */
function another(question: DayQuestion, kitchen: Kitchen, candidates: Candidate[], { suggestion }: Found): Found[] {
  const others = candidates.filter(({ kind, change }) => kind === suggestion.kind && change !== suggestion.change)
  return firstThatDoes(others, (one) => tried(question, kitchen, one))
}

const least = (found: Found[]) =>
  found
    .sort((a, b) => a.effort - b.effort)
    .slice(0, mostSuggestions)
    .map(({ suggestion }) => suggestion)

/** Of each kind the smallest change that does. */
function oneOfEachKind(question: DayQuestion, kitchen: Kitchen, candidates: Candidate[]): Found[] {
  const kinds = [...new Set(candidates.map(({ kind }) => kind))]
  return kinds.flatMap((own) => {
    const ofKind = candidates.filter(({ kind }) => kind === own)
    return firstThatDoes(ofKind, (one) => tried(question, kitchen, one))
  })
}

function tried(question: DayQuestion, kitchen: Kitchen, { effort, ...told }: Candidate): Found | undefined {
  const plan = fitDay(withChange(question, told.change), kitchen)
  return plan && { effort, suggestion: { ...told, plan } }
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
  return firstThatDoes([Math.ceil(exact / roundMs) * roundMs, exact], (ms): Found | undefined => {
    const change = { onTableBy: new Date(ms) }
    const plan = fitDay(withChange(question, change), kitchen)
    const laterMin = (ms - +question.onTableBy) / minuteMs
    return plan && { effort: laterMin, suggestion: { kind: "later", change, laterMin, plan } }
  })
}

function begunFrom(question: DayQuestion, kitchen: Kitchen, min: number): Found[] {
  const exact = +question.onTableBy + min * minuteMs
  return firstThatDoes(
    [Math.floor(exact / roundMs) * roundMs, exact].filter((ms) => ms >= +(question.now ?? Number.NEGATIVE_INFINITY)),
    (ms): Found | undefined => {
      const change = { notBefore: new Date(ms) }
      const plan = fitDay(withChange(question, change), kitchen)
      const earlierMin = (+question.notBefore! - ms) / minuteMs
      return plan && { effort: earlierMin, suggestion: { kind: "start earlier", change, earlierMin, plan } }
    },
  )
}
const minuteMs = 60_000
// People set their clocks by five minutes; every time zone is off from UTC by a multiple of them.
const roundMs = 5 * minuteMs

function firstThatDoes<One>(all: One[], attempt: (one: One) => Found | undefined): Found[] {
  for (const one of all) {
    const found = attempt(one)
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
      ...timesFor(changed, kitchen, otherTimes(tasksOf(changed, kitchen))),
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
