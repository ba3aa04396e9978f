import { laidOut, type Working, works } from "./fit-day.ts"
import { aheadOf, isWrong, mostEarlyMin, paces, reachOf, type Task } from "./lay.ts"
import { common, type Taken } from "./minutes.ts"

/** How far ahead the table may move, in minutes: people tell their busy hours for no longer. Our own judgement. */
const mostLaterMin = 72 * 60
// A step's length moves with how warm the dough comes to it: what is found at one pace may miss by a little.
const alsoTriedMin = [0, 1, 3, 10, 30, 60]

/** The day that works with a later table or with a sooner beginning, by as little as does. */
export type OtherTimes = { later: Working | undefined; earlier: Working | undefined }
/** Both for a day that does not fit, each if it alone does; the beginning no sooner than `now`. */
export const otherTimes = (tasks: Task[]): OtherTimes => ({ later: laterDay(tasks), earlier: earlierDay(tasks) })

/** The day that works soonest after the time it was asked for, if one does within three days. */
function laterDay(tasks: Task[]): Working | undefined {
  const found = tasks.flatMap((task) => {
    const ends = stepsOf(task).flatMap((steps) => {
      const latestMin = task.untilMin + mostLaterMin
      return common(reachOf(task, steps, latestMin).at(-1)!, [[task.untilMin, latestMin]]).slice(0, 1)
    })
    const untils = ends.map(([from]) => Math.ceil(from))
    return firstOf(untils, 1, (untilMin) => ({ ...task, untilMin }))
  })
  return found.sort((a, b) => a.task.untilMin - b.task.untilMin)[0]
}

/** The day that works with the least earlier beginning than was asked for, if one does. */
function earlierDay(tasks: Task[]): Working | undefined {
  const found = tasks.flatMap((task) => {
    if (task.fromMin <= task.nowMin) return []
    const any = { ...task, fromMin: task.nowMin }
    const begins = stepsOf(any).flatMap((steps) => {
      const reach = reachOf(any, steps)
      const ahead = aheadOf(any, steps, reach, [[task.untilMin - mostEarlyMin, task.untilMin]])
      return common(ahead[0]!, [[Number.NEGATIVE_INFINITY, task.fromMin]]).slice(-1)
    })
    const froms = begins.map(([, to]) => Math.floor(to))
    return firstOf(froms, -1, (fromMin) => ({ ...task, fromMin: Math.max(fromMin, task.nowMin) }))
  })
  return found.sort((a, b) => b.task.fromMin - a.task.fromMin)[0]
}

/** A day's steps at each pace, but for those that cannot be right. */
const stepsOf = (task: Task) =>
  paces.map(task.walked).filter((steps) => steps.length && (task.lenient || !steps.some(isWrong)))

/** The first of these minutes, nearest first, and then a little beyond, with which the task works. */
function firstOf(minutes: number[], direction: 1 | -1, taskWith: (min: number) => Task): Working[] {
  const near = [...new Set(minutes)].sort((a, b) => direction * (a - b))
  const tried = [...new Set(near.flatMap((min) => alsoTriedMin.map((more) => min + direction * more)))]
  for (const min of tried.sort((a, b) => direction * (a - b))) {
    const attempt = laidOut(taskWith(min))
    if (works(attempt)) return [attempt]
  }
  return []
}

/** A day that works with a part of one time away free, in minutes before the table. */
export type Freer = Working & { freed: Taken }

/** The days that work with a little less of one time away, at its beginning or at its end; each has the least of it. */
export function freerDays(tasks: Task[]): Freer[] {
  return tasks.flatMap((task) =>
    task.taken.flatMap(({ from, to }, index) => {
      if (!works(laidOut(without(task, index)))) return []
      const beginning = (min: number) => ({ from, to: Math.min(to, from + min) })
      const end = (min: number) => ({ from: Math.max(from, to - min), to })
      return [beginning, end].flatMap((part) => leastOf(to - from, part, (freed) => without(task, index, freed)))
    }),
  )
}

/** A task with one time away left out, or shorter by a part at its beginning or its end. */
function without(task: Task, index: number, freed = task.taken[index]!): Task {
  const { from, to } = task.taken[index]!
  const left = freed.from > from ? { from, to: freed.from } : { from: freed.to, to }
  const rest = task.taken.filter((_, at) => at !== index)
  return { ...task, taken: left.from < left.to ? [...rest, left].sort((a, b) => a.from - b.from) : rest }
}

/** By halving, to the minute. */
function leastOf(mostMin: number, part: (min: number) => Taken, taskWith: (freed: Taken) => Task): Freer[] {
  const freeing = (min: number) => ({ ...laidOut(taskWith(part(min))), freed: part(min) })
  let [least, most] = [0, Math.ceil(mostMin)]
  let found = freeing(most)
  while (most - least > 1) {
    const middle = Math.ceil((least + most) / 2)
    const attempt = freeing(middle)
    if (works(attempt)) [most, found] = [middle, attempt]
    else least = middle
  }
  return isFreer(found) ? [found] : []
}
const isFreer = (one: ReturnType<typeof laidOut> & { freed: Taken }): one is Freer => works(one)
