import { usualRetardC } from "../fermentation/end-points.ts"
import { type Chain, chainOf, loadsOf, type Step } from "./chain.ts"
import { checkDay } from "./check-day.ts"
import type { DayPlan, DayQuestion } from "./day.ts"
import { type Laid, layOut, type Task, walk } from "./lay.ts"
import type { Taken } from "./minutes.ts"
import { planFrom } from "./plan-from.ts"
import { type Kitchen, kitchenFor } from "./standing.ts"

/** The kitchen of a question, for it and for every change of it that leaves its places as warm as they are. */
export const kitchenOf = ({ places, mixedC }: DayQuestion): Kitchen =>
  kitchenFor([...Object.values(places), usualRetardC, mixedC.value])

/** The plan of a day that fits, checked; undefined when none was found. Throws like planDay. */
export function fitDay(question: DayQuestion, kitchen: Kitchen): DayPlan | undefined {
  const { stages, onTableBy } = question
  if (!stages.length) return { stages: [], curve: [], loads: [], startsAt: onTableBy, onTableAt: onTableBy }
  const tasks = tasksOf(question, kitchen)
  const found = firstWorking(tasks) ?? firstWorking(tasks.filter(isAlmost).map((task) => ({ ...task, lenient: true })))
  if (!found) return undefined
  const plan = planFrom(question, found.task, found.laid)
  return checkDay(question, plan).length ? undefined : plan
}

function firstWorking(tasks: Task[]): Working | undefined {
  for (const task of tasks) {
    const attempt = laidOut(task)
    if (works(attempt)) return attempt
  }
  return undefined
}

/** The last load waits too long by no more than rounding to minutes makes of it. */
const isAlmost = (task: Task) =>
  task.walked("low").some(({ overMin = 0 }) => overMin > 0 && overMin < 5) &&
  task.walked("low").every(({ trouble, overMin = 0 }) => !trouble && overMin < 5)

/** A day's task with the best that was found for it. */
export type Attempt = { task: Task; laid: Laid | undefined }
export type Working = { task: Task; laid: Laid }

/** Lays a task out. */
export const laidOut = (task: Task): Attempt => ({ task, laid: layOut(task) })
/** Whether that worked out. */
export const works = (attempt: Attempt): attempt is Working => attempt.laid?.works === true

/** What there is to lay out, in minutes before the table: with several loads, their bakes at their middle and at their shortest. */
export function tasksOf(question: DayQuestion, kitchen: Kitchen): Task[] {
  const { onTableBy, notBefore, now } = question
  const minutes = (at: Date | undefined) => (at ? (+at - +onTableBy) / minuteMs : Number.NEGATIVE_INFINITY)
  const nowMin = minutes(now)
  const fromMin = Math.max(minutes(notBefore), nowMin)
  const taken = takenIn(question)
  return (loadsOf(question) > 1 ? [false, true] : [false]).map((inHurry) => {
    const chain = chainOf(question, inHurry)
    return { chain, kitchen, taken, fromMin, nowMin, untilMin: 0, walked: remembered(chain, kitchen) }
  })
}

function remembered(chain: Chain, kitchen: Kitchen): Task["walked"] {
  const known = new Map<string, Step[]>()
  return (pace) => {
    const steps = known.get(pace) ?? walk(chain, kitchen, pace)
    known.set(pace, steps)
    return steps
  }
}
const minuteMs = 60_000

const takenIn = ({ away, onTableBy }: DayQuestion): Taken[] =>
  away
    .map(({ from, to }) => ({ from: (+from - +onTableBy) / minuteMs, to: (+to - +onTableBy) / minuteMs }))
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from)
