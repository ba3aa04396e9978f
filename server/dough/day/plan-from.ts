import type { Chain, Step } from "./chain.ts"
import type { DayPlan, DayQuestion, DayStage } from "./day.ts"
import { foldTimes } from "./hands-on.ts"
import { aheadOf, type Laid, reachOf, type Task } from "./lay.ts"
import type { Spans } from "./minutes.ts"
import { courseOf, loadsFrom } from "./written-out.ts"

/** A day that was laid out in minutes before `zeroAt`, as people have it. Throws RangeError like courseOf. */
export function planFrom(question: DayQuestion, task: Task, laid: Laid, zeroAt = question.onTableBy): DayPlan {
  const { chain } = task
  const at = (min: number) => new Date(Math.round(+zeroAt + min * minuteMs))
  const firsts = [...chain.asked.keys()].map((stage) => chain.links.findIndex((link) => link.stage === stage))
  const bounds = [...firsts, chain.links.length]
  const begins = bounds.map((index) => at(laid.startsMin[index]!))
  const times = firsts.map((_, stage) => ({ startsAt: begins[stage]!, endsAt: begins[stage + 1]! }))
  const spans = ovenSpans(chain, laid).map(([from, to]) => ({ startsAt: at(from), endsAt: at(to) }))
  const { asked, curve, through } = courseOf(question, times, spans.at(-1)?.startsAt)
  const around = boundsAround(task, laid)
  const handsOn = momentsOf(task, laid)

  const stages = asked.map(({ stage, place, wanted, wantedHours }, index): DayStage => {
    const [starts, ends] = [around[bounds[index]!]!, around[bounds[index + 1]!]!]
    return {
      ...{ stage, place, ...times[index]!, ...through[index]! },
      ...{ earliestStart: at(starts[0]), latestStart: at(starts[1]) },
      ...{ earliestEnd: at(ends[0]), latestEnd: at(ends[1]) },
      ...(wantedHours !== undefined && { wantedHours }),
      ...(wanted && { wantedRange: wanted }),
      handsOn: handsOn[index]!.map(([from, to]) => ({ from: at(from), to: at(to) })),
    }
  })
  const waiting = asked[chain.proofs]
  const proof = waiting && { asked: waiting, doughC: through[chain.proofs]!.endC }
  return { stages, curve, loads: loadsFrom(spans, proof), startsAt: begins[0]!, onTableAt: begins.at(-1)! }
}
const minuteMs = 60_000

function ovenSpans({ links }: Chain, { startsMin }: Laid): [number, number][] {
  const loads = new Map<number, [number, number]>()
  for (const [index, { load, asked }] of links.entries()) {
    if (asked.phase !== "oven") continue
    loads.set(load, [loads.get(load)?.[0] ?? startsMin[index]!, startsMin[index + 1]!])
  }
  return [...loads.values()]
}

/** By stage, the minutes in which somebody must be there. Those of later loads are the last bake stage's. */
function momentsOf({ chain, taken }: Task, { steps, startsMin }: Laid): [number, number][][] {
  const moments = chain.asked.map((): [number, number][] => [])
  const lastOven = chain.asked.findLastIndex(({ phase }) => phase === "oven")
  for (const [index, step] of steps.entries()) {
    const { stage, load } = step.link
    moments[load > 1 ? lastOven : stage]!.push(...momentsIn(step, startsMin[index]!, startsMin[index + 1]!, taken))
  }
  return moments.map((one) => one.sort(([a], [b]) => a - b))
}

function momentsIn({ link, folds }: Step, start: number, end: number, taken: Task["taken"]): [number, number][] {
  const { atStartMin, atEndMin } = link.handsOn
  const first: [number, number][] = atStartMin > 0 ? [[start, Math.min(start + atStartMin, Math.max(end, start))]] : []
  const last: [number, number][] = atEndMin > 0 ? [[Math.max(start, end - atEndMin), end]] : []
  const between = folds ? foldTimes(folds, start, taken).map((at): [number, number] => [at, at + folds.eachMin]) : []
  return [...first, ...between, ...last]
}

/** By step, and for the end, how much sooner and later than it does it may begin so that the rest still works out. */
function boundsAround(task: Task, { steps, startsMin, works }: Laid): [number, number][] {
  const endMin = startsMin.at(-1)!
  const reach = works ? reachOf(task, steps) : undefined
  const ahead = reach && aheadOf(task, steps, reach, [[Math.min(endMin, task.untilMin), task.untilMin]])
  return startsMin.map((min, index) => around(ahead?.[index] ?? [], min))
}
function around(spans: Spans, min: number): [number, number] {
  const found = spans.find(([from, to]) => from <= min + sameMin && min - sameMin <= to)
  return found ? [Math.min(found[0], min), Math.max(found[1], min)] : [min, min]
}
// The steps are only known to the minute.
const sameMin = 1
