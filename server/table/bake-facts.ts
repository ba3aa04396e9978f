import type { Change } from "../changes/as-baked.ts"
import { gasMade, hoursToGas } from "../dough/fermentation/leaven.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import { heldOver } from "../dough/fermentation/temperature-curve.ts"
import { countsAsOf } from "../dough/ingredients/catalogue.ts"
import { isCue } from "../dough/verdict/cues.ts"
import type { BakeFacts, ToldStage } from "../dough/verdict/facts.ts"
import { type Facts, minutesBetween } from "./facts.ts"
import type { Log } from "./spans.ts"

/** What a verdict is reached from: a bake's log against its plan, what was seen of it, and what it was made of. */
export function bakeFactsOf(facts: Facts, log: Log): BakeFacts {
  const { mix, raised, bakedMassG, doughMassG } = log
  const actual = raised && "leaven" in raised.actual ? raised.actual.leaven : undefined
  return defined({
    culture: facts.culture,
    leavenShare: actual?.share,
    hydration: one(mix?.hydration),
    salt: one(mix?.salt),
    fat: mix?.fat,
    sugar: mix?.sugar,
    vessel: log.vessel || undefined,
    stages: stagesOf(facts),
    hours: hoursOf(facts, raised),
    plannedHours: facts.plannedHours,
    rise: facts.rise && { target: facts.targetRise, known: facts.rise.known ?? "measured", share: facts.rise.share },
    finger: fingerIn(facts, log),
    ph: log.readings.findLast(({ kind, value }) => kind === "ph" && value !== null)?.value ?? undefined,
    insideC: log.insideC ?? undefined,
    bakeLoss: bakedMassG && doughMassG && bakedMassG < doughMassG ? 1 - bakedMassG / doughMassG : undefined,
    cues: (log.cues ?? []).filter(isCue),
    changes: facts.changes.flatMap(changeOf),
  })
}

const one = (value: number | undefined) => (value === undefined ? undefined : { low: value, high: value })

/** Dough that waits for its oven goes on fermenting. */
function hoursOf(
  { fermented, plannedHours, warmth, spans, culture }: Facts,
  raised: Log["raised"],
): BakeFacts["hours"] {
  if (!fermented || !warmth) return undefined
  const { endsAt, hours, assumedShare } = fermented
  const ovenAt = spans.find(({ stage }) => stage.kind === "bake")?.startsAt
  const waited = ovenAt && ovenAt > endsAt
  const more = waited ? referenceHours(heldOver(warmth.curve, endsAt, ovenAt), endsAt, ovenAt, culture) : 0
  const planned = plannedHours ? { planned: plannedHours, asMade: asMade(plannedHours, raised) } : {}
  return { done: hours + more, ...planned, assumedShare }
}

/** More leaven needs fewer hours for the same gas. Another kind of leaven has no hours to compare. */
function asMade(plannedHours: number, raised: Log["raised"]) {
  if (!raised || "why" in raised.planned || "why" in raised.actual) return plannedHours
  const [planned, actual] = [raised.planned.leaven, raised.actual.leaven]
  return planned.culture === actual.culture ? hoursToGas(actual, gasMade(planned, plannedHours)) : plannedHours
}

const kinds: { [kind in Facts["stages"][number]["kind"]]?: ToldStage["kind"] } = {
  rest: "rest",
  fold: "bulk",
  bulk: "bulk",
  proof: "proof",
  retard: "retard",
}

/** Marks that contradict each other say nothing of how long anything took. */
function stagesOf({ times, warmth, gap }: Facts): ToldStage[] {
  if (gap === "out of order") return []
  return times.flatMap(({ stage, actualMin, span }): ToldStage[] => {
    const kind = kinds[stage.kind]
    if (!kind || !span) return []
    const told = { kind, ...(actualMin === undefined ? {} : { min: { low: actualMin, high: actualMin } }) }
    const warm = kind === "retard" ? undefined : warmth?.meanC
    return [warm === undefined ? told : { ...told, c: { low: warm, high: warm }, of: warmth!.from }]
  })
}

/** In which rise the finger was tried: a dent that stays means something else in each. */
function fingerIn({ finger, spans }: Facts, { readings }: Log): BakeFacts["finger"] {
  if (!finger) return undefined
  const bulk = spans.findLast(({ stage, end }) => stage.kind === "bulk" && end !== "open")
  const tried = readings.filter((one) => one.kind === "finger" && one.finger === finger)
  const inBulk = bulk && tried.every(({ takenAt }) => minutesBetween(bulk.endsAt, takenAt) <= 0)
  return { found: finger, at: inBulk ? "bulk" : "proof" }
}

function changeOf({ kind, old, outQuantity, instead, leaven }: Change): NonNullable<BakeFacts["changes"]> {
  const whole = kind === "left-out" && outQuantity === ""
  if (whole && countsAsOf(old, []) === "salt") return [{ kind: "salt left out", words: "The salt was left out" }]
  if (whole && leaven) return [{ kind: "yeast left out", words: "The leaven was left out" }]
  if (kind === "added" && countsAsOf(instead, []) === "flour")
    return [{ kind: "flour added", words: "More flour was worked in" }]
  const flours = countsAsOf(old, []) === "flour" && countsAsOf(instead, []) === "flour"
  if (kind === "swapped" && flours) return [{ kind: "other flour", words: `${instead} in place of ${old}` }]
  return []
}

/** Without what is not known, so that a fact that is there is one that was told. */
const defined = (facts: BakeFacts): BakeFacts =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as BakeFacts
