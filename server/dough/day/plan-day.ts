import { brokenOf } from "./broken.ts"
import type { DayAnswer, DayQuestion } from "./day.ts"
import { fitDay, kitchenOf, tasksOf } from "./fit-day.ts"
import { otherTimes } from "./relaxed.ts"
import { suggestionsFor } from "./suggestions.ts"

/**
 * One person's own day for the stages of a formula, in their kitchen: on the table as late as it may be, each stage as near to
 * its middle as that allows. When it does not fit: what keeps it from that, the least first, the nearest day to look at, and up
 * to three changes with which it fits. All times are elapsed ones, so no clock change stretches a stage. Away times are only
 * known as far as they are told: to be told for as long before the table as the day could take, and for three days after. Throws RangeError for a temperature
 * outside −5..60 °C or a stage whose minutes are no duration.
 */
export function planDay(question: DayQuestion): DayAnswer {
  const kitchen = kitchenOf(question)
  const fitting = fitDay(question, kitchen)
  if (fitting) return { fits: true, plan: fitting }
  const tasks = tasksOf(question, kitchen)
  const times = otherTimes(tasks)
  return { fits: false, ...brokenOf(question, tasks, times), suggestions: suggestionsFor(question, kitchen, times) }
}
