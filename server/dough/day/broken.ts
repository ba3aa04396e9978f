import { checkDay } from "./check-day.ts"
import type { Broken, DayPlan, DayQuestion } from "./day.ts"
import { laidOut, type Working, works } from "./fit-day.ts"
import { isWrong, paces, type Task } from "./lay.ts"
import { planFrom } from "./plan-from.ts"
import { type Freer, freerDays, type OtherTimes, otherTimes } from "./relaxed.ts"

/** What keeps a day from working, the least first, each alone or all together, and the nearest day to look at. */
export type Nearest = { plan: DayPlan | undefined; broken: Broken[]; together?: true }

/**
 * For a day that does not fit: what alone would have to give way so that it does, and by how much at the least; with the plan
 * that the first of these gives. Where no one thing does: everything that the nearest plan breaks. A stage that cannot come to
 * what it should comes before all of that. Throws like planDay.
 */
export function brokenOf(question: DayQuestion, tasks: Task[], { later, earlier }: OtherTimes): Nearest {
  const stages = tasks.flatMap(stageTroubles).slice(0, 1).flat()
  if (stages.length) {
    const isCold = stages.some((one) => one.what === "stage" && one.why === "too cold")
    return {
      plan: isCold ? undefined : bent(question, tasks)?.plan,
      broken: stages,
      ...(stages.length > 1 && { together: true }),
    }
  }
  const freer = freerDays(tasks).flatMap((one) => freedBroken(question, one))
  const relaxed = [later, earlier, ...waiting(tasks)]
  const found = [...relaxed.flatMap((one) => (one ? leastBroken(question, one) : [])), ...freer]
  return foremost(found) ?? bent(question, tasks) ?? { plan: undefined, broken: [] }
}

const byMin = (one: Broken) => ("byMin" in one ? one.byMin : Number.POSITIVE_INFINITY)

/** Stages that at no pace of the day come to what they should. */
function stageTroubles(task: Task): Broken[][] {
  const walks = paces.map(task.walked)
  if (!walks.every((steps) => steps.some(({ trouble }) => trouble))) return []
  return [
    walks[0]!.flatMap(({ trouble, link: { asked } }): Broken[] => {
      const { stage, place, placeC } = asked
      return trouble ? [{ what: "stage", stageKey: stage.key, place, placeC, why: trouble }] : []
    }),
  ]
}

/** Days in which only the last load waits too long. */
const waiting = (tasks: Task[]): Working[] =>
  tasks
    .filter((task) => task.walked("low").some(isWrong))
    .map((task) => laidOut({ ...task, lenient: true }))
    .filter(works)
    .slice(-1)

/** The plan of a relaxed day, when it breaks one thing only, and by how much at the most. */
function leastBroken(question: DayQuestion, { task, laid }: Working): { plan: DayPlan; broken: Broken }[] {
  const plan = planFrom(question, task, laid)
  const broken = checkDay(question, plan).sort((a, b) => byMin(b) - byMin(a))
  const [most] = broken
  return most && broken.every(({ what }) => what === most.what) ? [{ plan, broken: most }] : []
}

/** The plan of a day with a part of a time away free, for the first stage that needs it. */
function freedBroken(question: DayQuestion, { task, laid, freed }: Freer): { plan: DayPlan; broken: Broken }[] {
  const plan = planFrom(question, task, laid)
  const [first] = checkDay(question, plan)
  if (first?.what !== "busy" && first?.what !== "asleep") return []
  const at = (min: number) => new Date(Math.round(+question.onTableBy + min * minuteMs))
  const part = { from: at(freed.from), to: at(freed.to), byMin: freed.to - freed.from }
  return [{ plan, broken: { ...first, ...part } }]
}
const minuteMs = 60_000

/** Of each kind, the least. */
function foremost(found: { plan: DayPlan; broken: Broken }[]): Nearest | undefined {
  const ordered = found.sort((a, b) => byMin(a.broken) - byMin(b.broken))
  const kept = ordered.filter(
    ({ broken }, index) => ordered.findIndex((one) => one.broken.what === broken.what) === index,
  )
  return kept[0] && { plan: kept[0].plan, broken: kept.map(({ broken }) => broken) }
}

/**
 * The nearest day where no one thing gives way. A load may wait too long in any; if that is not enough, it is later or sooner
 * besides, then hands are on the dough whenever it asks for them, and at last it begins when it must.
 */
function bent(question: DayQuestion, tasks: Task[]): Nearest | undefined {
  const lenient = tasks.map((task) => ({ ...task, lenient: true }))
  const open = lenient.map((task) => ({ ...task, taken: [] }))
  const { later, earlier } = otherTimes(lenient)
  const attempts = [...[later, earlier].filter((one) => one !== undefined), ...open.map(laidOut)]
  const anyTime = open.map((task) => laidOut({ ...task, fromMin: Number.NEGATIVE_INFINITY }))
  const nearest = attempts.find(works) ?? anyTime.find(({ laid }) => laid)
  if (!nearest?.laid) return undefined
  const plan = planFrom(question, nearest.task, nearest.laid)
  return { plan, broken: mostOfEach(checkDay(question, plan)).sort((a, b) => byMin(a) - byMin(b)), together: true }
}

/** For each stage, what it breaks the most of each kind. */
function mostOfEach(all: Broken[]): Broken[] {
  const named = (one: Broken) => `${one.what} ${"stageKey" in one ? one.stageKey : ""}`
  const most = new Map<string, Broken>()
  for (const one of all) {
    const known = most.get(named(one))
    if (!known || byMin(one) > byMin(known)) most.set(named(one), one)
  }
  return [...most.values()]
}
