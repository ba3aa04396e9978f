import { gasMade, hoursToGas, type Leaven } from "../fermentation/leaven.ts"
import { shapleyShares } from "./shapley.ts"

/** What a dough's time to the oven is made of; `wait` is from the end of the last stage to the oven. */
export const stretchKeys = ["bulk", "shape", "proof", "retard", "wait"] as const
export type StretchKey = (typeof stretchKeys)[number]

/** How long a dough was in one of them, and the reference hours that passed in an hour of it; no `pace` where nobody knows. */
export type Stretch = { min: number; pace?: number }

/** One bake's way to the oven. A stretch that it did not have is left out. */
export type Course = {
  stretches: Partial<Record<StretchKey, Stretch>>
  leaven?: Leaven
  /** How lively the leaven was, 1 as usual. */
  activity?: number
}

/** What may differ between two bakes of one dough. */
export type Factor = StretchKey | "temperature" | "leaven" | "activity"

/**
 * How much further on the later dough was at the oven than the earlier, and what each factor carries of that, in reference
 * hours of the earlier dough; below 0 less far. The shares add up to `hours` exactly.
 */
export type Between = { hours: number; shares: Partial<Record<Factor, number>> }

/**
 * Shares the difference between two bakes out among the factors that differ, by their Shapley values. A dough's progress is
 * activity × gas, as in bakeCauses; it is told as the reference hours in which the earlier dough, with its leaven, would
 * have made as much. A stretch that one of the two did not have went at the other's pace; one whose pace is known of neither
 * at 1; without the leaven of both, or with two kinds of it, the hours are counted alone. Throws RangeError where nothing
 * differs, or for minutes or paces below 0.
 */
export function betweenBakes(then: Course, now: Course): Between {
  const factors = differing(then, now)
  const worthOf = (changed: ReadonlySet<Factor>) => {
    const hours = hoursIn(then, now, changed)
    const pick = <Value>(factor: Factor, one: Value, other: Value) => (changed.has(factor) ? other : one)
    if (!sameKind(then, now)) return hours
    const leaven = pick("leaven", then.leaven!, now.leaven!)
    const liveliness = pick("activity", 1, (now.activity ?? 1) / (then.activity ?? 1))
    return hoursToGas(then.leaven!, liveliness * gasMade(leaven, hours))
  }
  const shares = shapleyShares(factors, worthOf)
  return { hours: worthOf(new Set(factors)) - worthOf(new Set()), shares }
}

/** Whether two bakes differ in anything that this can share out. */
export const differsAtAll = (then: Course, now: Course): boolean => differing(then, now).length > 0

const sameKind = (then: Course, now: Course) =>
  then.leaven !== undefined && now.leaven !== undefined && then.leaven.culture === now.leaven.culture

function differing(then: Course, now: Course): Factor[] {
  const minOf = ({ stretches }: Course, key: StretchKey) => stretches[key]?.min ?? 0
  const times = stretchKeys.filter((key) => minOf(then, key) !== minOf(now, key))
  const warmth = stretchKeys.some((key) => paceOf(then, key, now) !== paceOf(now, key, then))
  const raised = sameKind(then, now)
  return [
    ...times,
    ...(warmth ? (["temperature"] as const) : []),
    ...(raised && then.leaven!.share !== now.leaven!.share ? (["leaven"] as const) : []),
    ...(raised && then.activity && now.activity && then.activity !== now.activity ? (["activity"] as const) : []),
  ]
}

function hoursIn(then: Course, now: Course, changed: ReadonlySet<Factor>) {
  const warm = changed.has("temperature")
  return stretchKeys.reduce((total, key) => {
    const { min } = (changed.has(key) ? now : then).stretches[key] ?? { min: 0 }
    const pace = warm ? paceOf(now, key, then) : paceOf(then, key, now)
    if (!(min >= 0 && pace >= 0)) throw new RangeError(`${key} of ${min} min at a pace of ${pace}`)
    return total + (min / 60) * pace
  }, 0)
}

const paceOf = ({ stretches }: Course, key: StretchKey, other: Course) =>
  stretches[key]?.pace ?? other.stretches[key]?.pace ?? 1
