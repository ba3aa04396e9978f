import { beginsAtC, type Chain, comesToNextAtC, type Step, stepAt } from "./chain.ts"
import { startsFor } from "./hands-on.ts"
import { common, freeFor, nearest, type Spans, spread, type Taken } from "./minutes.ts"
import type { Kitchen } from "./standing.ts"

/**
 * A day to be laid out, in minutes from the time it is to be on the table: `fromMin` it may begin, `nowMin` nothing can any
 * more, by `untilMin` it is over.
 * A `lenient` one works even where a stage does not come to what it should or a load waits too long.
 */
export type Task = {
  chain: Chain
  kitchen: Kitchen
  taken: Taken[]
  fromMin: number
  nowMin: number
  untilMin: number
  lenient?: boolean
  /** The steps of this chain at each pace, reckoned once. */
  walked: (pace: Pace) => Step[]
}

/** When each link starts and the last one ends, what each may take as it turned out, and whether all of it works. */
export type Laid = { startsMin: number[]; steps: Step[]; works: boolean }

/** Nobody who asks for bread by supper wants yesterday's: a day ends no earlier than this before. Our own judgement, minutes. */
export const mostEarlyMin = 12 * 60
// How a step may take depends on how warm the dough comes to it, and so on the steps before: round after round both settle.
const rounds = 6

/**
 * Lays a day out: on the table as late as it may be, with steps as near to their middle as that allows. Backwards from the
 * table it finds from which minutes on each step still works out, then goes forward through them. Where nothing works, the
 * nearest it came to it. undefined for a day without stages.
 */
export function layOut(task: Task): Laid | undefined {
  if (!task.chain.links.length) return undefined
  let last: Laid | undefined
  for (const prefer of paces) {
    let steps = task.walked(prefer)
    for (let round = 0; round < rounds; round++) {
      const sets = setsOf(task, steps)
      if (!sets) break
      const laid = goThrough(task, steps, sets)
      if (laid.works) return laid
      steps = laid.steps
      last ??= laid
    }
  }
  return last ?? pressed(task)
}

/** How a day may go: each step as long as it had best be, as short, or as long as it may. */
export const paces = ["middle", "low", "high"] as const
type Pace = (typeof paces)[number]

/** The steps of a day that goes at one pace. */
export function walk(chain: Chain, kitchen: Kitchen, pace: Pace): Step[] {
  const steps: Step[] = []
  let doughC = beginsAtC(chain)
  for (const index of chain.links.keys()) {
    const step = stepAt(chain, index, doughC, kitchen)
    steps.push(step)
    doughC = comesToNextAtC(chain, index, doughC, step[pace])
  }
  return steps
}

/** With everything at its shortest, as late as it goes: what to look at where nothing works. */
function pressed(task: Task): Laid {
  const steps = task.walked("low")
  const totalMin = steps.reduce((sum, { low }) => sum + low, 0)
  const startsMin = [Math.max(task.untilMin - totalMin, task.fromMin)]
  for (const { low } of steps) startsMin.push(startsMin.at(-1)! + low)
  return { startsMin, steps, works: false }
}

/** When steps may begin, each, that are to end in this span; undefined when they cannot. */
function setsOf(task: Task, steps: Step[]): { ahead: Spans[]; endMin: number } | undefined {
  if (!task.lenient && steps.some(isWrong)) return undefined
  const reach = reachOf(task, steps)
  const ends = common(reach.at(-1)!, [[task.untilMin - mostEarlyMin, task.untilMin]])
  const endMin = ends.at(-1)?.[1]
  if (endMin === undefined) return undefined
  const latest = nearest(ends, endMin)!
  return { ahead: aheadOf(task, steps, reach, [[latest, latest]]), endMin: latest }
}

/** Whether a step cannot be right. */
export const isWrong = ({ trouble, overMin }: Step) => trouble !== undefined || overMin !== undefined

/** When each step can begin, and the last one end, of a day that begins when it may. */
export function reachOf({ taken, fromMin, untilMin }: Task, steps: Step[], latestMin = untilMin): Spans[] {
  const totalMin = steps.reduce((sum, { high }) => sum + high, 0)
  const earliest = Math.max(fromMin, untilMin - mostEarlyMin - totalMin)
  const begins = earliest > latestMin ? [] : common([[earliest, latestMin]], startsOf(steps[0]!, taken))
  const reach: Spans[] = [begins]
  for (const [index, step] of steps.entries()) {
    const ends = common(spread(reach[index]!, step.low, step.high), endsOf(step, taken))
    const next = steps[index + 1]
    reach.push(next ? common(ends, startsOf(next, taken)) : ends)
  }
  return reach
}

/** When each step may begin so that the last one ends in `target`, within what it can `reach`. */
export function aheadOf({ taken }: Task, steps: Step[], reach: Spans[], target: Spans): Spans[] {
  const ahead: Spans[] = [common(target, reach.at(-1)!)]
  for (const [index, step] of [...steps.entries()].reverse()) {
    const ends = common(ahead[0]!, endsOf(step, taken))
    ahead.unshift(common(spread(ends, -step.high, -step.low), reach[index]!))
  }
  return ahead
}

function startsOf({ link, folds }: Step, taken: Taken[]): Spans {
  const free = link.handsOn.atStartMin > 0 ? freeFor(link.handsOn.atStartMin, taken) : always
  return folds ? common(free, startsFor(folds, taken)) : free
}
const endsOf = ({ link: { handsOn } }: Step, taken: Taken[]): Spans =>
  handsOn.atEndMin > 0 ? spread(freeFor(handsOn.atEndMin, taken), handsOn.atEndMin, handsOn.atEndMin) : always
const always: Spans = [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]]

/** Forward, each step as long as is best of what still works out, given how warm the dough really comes to it. */
function goThrough(task: Task, expected: Step[], { ahead, endMin }: { ahead: Spans[]; endMin: number }): Laid {
  const { chain, kitchen, taken } = task
  const steps: Step[] = []
  const totalMin = expected.reduce((sum, { middle }) => sum + middle, 0)
  const begins = nearest(ahead[0]!, endMin - totalMin)
  const startsMin = [begins ?? endMin - totalMin]
  let works = begins !== undefined
  let doughC = beginsAtC(chain)
  for (const index of chain.links.keys()) {
    const step = stepAt(chain, index, doughC, kitchen)
    const start = startsMin[index]!
    const wished = start + wishedMin([step, ...expected.slice(index + 1)], endMin - start)
    const ends = common(common(ahead[index + 1]!, endsOf(step, taken)), [[start + step.low, start + step.high]])
    const end = nearest(ends, wished)
    works &&= end !== undefined && common(startsOf(step, taken), [[start, start]]).length > 0
    steps.push(step)
    startsMin.push(end ?? wished)
    doughC = comesToNextAtC(chain, index, doughC, startsMin[index + 1]! - start)
  }
  return { startsMin, steps, works: works && (task.lenient || !steps.some(isWrong)) }
}

/** How long the first of these steps had best take, when together they have so long: each gives or takes by its own leeway. */
function wishedMin(steps: Step[], togetherMin: number): number {
  const [step] = steps
  const leeway = steps.reduce((sum, { low, high }) => sum + high - low, 0)
  const spareMin = togetherMin - steps.reduce((sum, { middle }) => sum + middle, 0)
  const own = leeway > 0 ? (spareMin * (step!.high - step!.low)) / leeway : 0
  return Math.min(Math.max(step!.middle + own, step!.low), step!.high)
}
