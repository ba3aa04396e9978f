import type { Change, DayQuestion } from "./day.ts"

/** A question with a change taken. */
export function withChange(question: DayQuestion, { fed, ...change }: Change): DayQuestion {
  const levain = question.levain && fed ? { levain: { ...question.levain, fed } } : {}
  return { ...question, ...change, ...levain }
}
