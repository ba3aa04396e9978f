import type { Say } from "../accounts/say.ts"
import { type Course, stretchKeys } from "../dough/causes/between-bakes.ts"
import { degrees } from "../table/cause-words.ts"
import { type Known, least, type Thing, type Two } from "./thing.ts"

const stretchNames = {
  ...{ bulk: "Bulk", shape: "Dividing and shaping", proof: "Proof", retard: "Time in the fridge" },
  wait: "Waiting for the oven",
}

/** Stages that both marked whole, where the way to the oven cannot be told. */
export function marked({ earlier, later }: Two, say: Say): Thing[] {
  return later.row.times.flatMap(({ stage, actualMin: after }): Thing[] => {
    const before = earlier.row.times.find((one) => one.stage.key === stage.key)?.actualMin
    if (before === undefined || after === undefined || Math.abs(after - before) < least.min) return []
    if (stage.kind === "bake" || stage.kind === "cool") return []
    const by = `${say.minutes(Math.abs(after - before))} ${after > before ? "longer" : "shorter"}`
    return [
      { key: `stage ${stage.key}`, name: stage.name, earlier: say.minutes(before), later: say.minutes(after), by },
    ]
  })
}

export function times({ earlier, later }: { earlier: Course; later: Course }, say: Say): Thing[] {
  return stretchKeys.flatMap((key): Thing[] => {
    const [before, after] = [earlier.stretches[key]?.min ?? 0, later.stretches[key]?.min ?? 0]
    const moved = after - before
    if (Math.abs(moved) < least.min) return []
    const words = (min: number) => (min ? say.minutes(min) : "none")
    return [
      {
        ...{ key, name: stretchNames[key], earlier: words(before), later: words(after) },
        by: `${say.minutes(Math.abs(moved))} ${moved > 0 ? "longer" : "shorter"}`,
        ...(key === "bulk" || key === "proof" ? { called: `the ${key}` } : {}),
        dial: { of: "min", moved },
      },
    ]
  })
}

type Warm = Pick<Known, "meanC" | "of">

export function warmth({ earlier, later }: { earlier: Warm; later: Warm }, say: Say): Thing[] {
  if (earlier.meanC === undefined || later.meanC === undefined) return []
  const moved = later.meanC - earlier.meanC
  if (Math.abs(moved) < least.c) return []
  const words = ({ meanC, of }: Warm) => `${say.temperature(meanC!)}${of === "room" ? " in the room" : ""}`
  return [
    {
      ...{ key: "temperature", name: "Dough temperature, mean", earlier: words(earlier), later: words(later) },
      by: `${degrees(Math.abs(moved), say)} ${moved > 0 ? "warmer" : "colder"}`,
      called: "the dough temperature",
      dial: { of: "c", moved },
    },
  ]
}

export function leaven({ earlier, later }: Two, say: Say): Thing[] {
  const [before, after] = [earlier.bake.raised.actual, later.bake.raised.actual]
  if ("why" in before || "why" in after) return []
  const [one, other] = [before.leaven, after.leaven]
  const name = one.culture === "sourdough" ? "Levain’s flour, of all flour" : "Yeast, of the flour"
  if (one.culture !== other.culture)
    return [{ key: "raised", name: "What raises it", earlier: one.culture, later: other.culture, by: "another" }]
  const moved = other.share - one.share
  if (Math.abs(moved) / one.share < least.leavenRatio) return []
  return [
    {
      ...{ key: "leaven", name, earlier: say.percent(one.share), later: say.percent(other.share) },
      by: `${moved > 0 ? "more" : "less"} by ${say.percent(Math.abs(moved))} of the flour`,
      called: one.culture === "sourdough" ? "the levain" : "the yeast",
      dial: { of: "share", moved },
    },
  ]
}

export function lively({ earlier, later }: { earlier: Course; later: Course }): Thing[] {
  if (!earlier.activity || !later.activity) return []
  const words = (activity: number) => `${Math.round(activity * 100)} % of usual`
  const by = Math.round((later.activity / earlier.activity - 1) * 100)
  const said = `${Math.abs(by)} % ${by > 0 ? "livelier" : "less lively"}`
  return [
    {
      key: "activity",
      name: "How lively the leaven was",
      earlier: words(earlier.activity),
      later: words(later.activity),
      by: said,
    },
  ]
}
