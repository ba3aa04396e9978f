import { expect, test } from "vitest"
import { asBaked } from "../../server/changes/as-baked.ts"
import type { KeptChange } from "../../server/changes/queries.ts"
import { chance } from "../../server/demo/chance.ts"
import type { CauseKey } from "../../server/dough/causes/bake-causes.ts"
import { gasMade } from "../../server/dough/fermentation/leaven.ts"
import { referenceHours } from "../../server/dough/fermentation/reference-hours.ts"
import { riseFrom } from "../../server/dough/fermentation/rise.ts"
import { usualSourdough } from "../../server/dough/fermentation/sourdough-rise.ts"
import { raisedBy } from "../../server/estimate/leaven.ts"
import { layRow } from "../../server/table/row.ts"
import type { Log, LoggedReading } from "../../server/table/spans.ts"
import { tinLoaf } from "../class-day.ts"

type Dice = ReturnType<typeof chance>
const keys: CauseKey[] = ["time", "temperature", "leaven", "activity"]
const stages = tinLoaf.stages
const minuteMs = 60_000
const startsAt = new Date("2026-11-14T09:00:00Z")
const later = (at: Date, min: number) => new Date(+at + min * minuteMs)

/** What one baker really did: everything a little off the plan, and one thing far off. */
function bakeWith(cause: CauseKey, dice: Dice) {
  const up = dice.unit() < 0.5 ? -1 : 1
  const far = (low: number, high: number) => up * (low + (high - low) * dice.unit())
  const only = (key: CauseKey, value: number, otherwise: number) => (key === cause ? value : otherwise)
  return {
    bulkMin: 300 + only("time", far(75, 130), 8 * dice.normal()),
    proofMin: 120 + 6 * dice.normal(),
    doughC: 24 + only("temperature", far(2.5, 4.5), 0.4 * dice.normal()),
    // the levain as weighed, or part of it left in the jar, or more starter beside it
    levain: only("leaven", up, 0),
    activity: Math.exp(only("activity", far(Math.log(1.4), Math.log(1.8)), 0.04 * dice.normal())),
  }
}

function changesOf(levain: number, dice: Dice): KeptChange[] {
  if (levain === 0) return []
  const grams = levain < 0 ? 100 + 20 * dice.unit() : 110 + 60 * dice.unit()
  const amount = { quantity: `${Math.round(grams)} g`, g: Math.round(grams) }
  const less = { kind: "left-out", partKey: "levain", outQuantity: amount.quantity, outG: amount.g }
  const more = { kind: "added", partKey: "dough", instead: "ripe starter", quantity: amount.quantity, massG: amount.g }
  const nothing = { partKey: "", ingredient: "", outQuantity: "", outG: null, instead: "", quantity: "", massG: null }
  const told = { words: "", stageKey: null, doneAt: null, doneTyped: "", doneAboutMin: null }
  const kept = { id: 1, bakeId: 1, madeAt: startsAt, removedAt: null }
  return [{ ...kept, ...nothing, ...told, ...(levain < 0 ? less : more) } as KeptChange]
}

/** The bake's log, as a phone would have kept it: a thermometer that is off by half a degree, a jar read to three points. */
function simulated(cause: CauseKey, dice: Dice) {
  const did = bakeWith(cause, dice)
  const made = asBaked({ content: tinLoaf, variant: "", ownIngredients: [] }, changesOf(did.levain, dice))
  const raised = { planned: raisedBy(made.asWritten, []), actual: raisedBy(made.content, [], made.asWritten) }
  if ("why" in raised.actual) throw new Error(raised.actual.why)
  const { leaven, factor } = raised.actual

  const bulkEnds = later(startsAt, did.bulkMin)
  const proofStarts = later(bulkEnds, 20 + 3 * dice.normal())
  const ovenAt = later(proofStarts, did.proofMin)
  // the dough settles from a mixing that was a little off,
  const mixedOff = 0.6 * dice.normal()
  const trueC = (at: Date) => did.doughC + mixedOff * Math.exp(-(+at - +startsAt) / (90 * minuteMs))
  const curve = Array.from({ length: 61 }, (_, i) => {
    const at = later(startsAt, i * 12)
    return { at, doughC: trueC(at), known: "measured" as const }
  })
  const riseAt = (at: Date) => {
    const gas = gasMade(leaven, referenceHours(curve, startsAt, at))
    return riseFrom(gas, { ...usualSourdough, activity: usualSourdough.activity * factor * did.activity })
  }

  const reading = (kind: LoggedReading["kind"], at: Date, value: number): LoggedReading => ({
    ...{ kind, takenAt: at, value, stageKey: null, finger: null, known: "measured", of: kind === "rise" ? "jar" : "" },
  })
  const along = (shares: number[], ends: Date) =>
    shares.map((share) => later(startsAt, (share * (+ends - +startsAt)) / minuteMs))
  const log: Log = {
    onTableAt: later(startsAt, 540),
    finishedAt: later(ovenAt, 120),
    abandonedAt: null,
    marks: [
      { stageKey: "bulk", startedAt: startsAt, endedAt: bulkEnds },
      { stageKey: "shape", startedAt: bulkEnds, endedAt: proofStarts },
      { stageKey: "proof", startedAt: proofStarts, endedAt: ovenAt },
      { stageKey: "bake", startedAt: ovenAt, endedAt: later(ovenAt, 40) },
    ],
    readings: [
      ...along([0.01, 0.3, 0.6, 0.95], ovenAt).map((at) => reading("dough", at, trueC(at) + 0.5 * dice.normal())),
      ...along([0.3, 0.55, 0.75, 0.9, 0.99], bulkEnds).map((at) =>
        reading("rise", at, riseAt(at) + 0.03 * dice.normal()),
      ),
    ],
    changes: made.changes,
    raised,
  }
  return layRow(log, stages, { targetRise }, later(ovenAt, 2000)).causes
}

/** What a plan asks for that counts on a usual leaven: as far as it raises the dough in 5 h at 24 °C. */
const targetRise = usualRiseAfter(5)
function usualRiseAfter(hours: number) {
  const planned = raisedBy(tinLoaf, [])
  if ("why" in planned) throw new Error(planned.why)
  const activity = usualSourdough.activity * planned.factor
  return riseFrom(gasMade(planned.leaven, hours), { ...usualSourdough, activity })
}

function classOf(size: number, seed: number) {
  const dice = chance(seed)
  return Array.from({ length: size }, (_, bake) => {
    const cause = keys[bake % keys.length]!
    const causes = simulated(cause, dice)
    if (!causes.enough) throw new Error(causes.why)
    const total = causes.shares.reduce((sum, { min }) => sum + min, 0)
    return { cause, first: causes.shares[0]!.key, rest: Math.abs(total - causes.leadMin), causes }
  })
}

const rightIn = (bakes: ReturnType<typeof classOf>) =>
  bakes.filter(({ cause, first }) => cause === first).length / bakes.length

test("in a class of 30 whose causes are known, shares add up exactly and the true cause is the largest in at least 90 %", () => {
  const bakes = classOf(30, 1)
  for (const { rest } of bakes) expect(rest).toBeLessThanOrEqual(1e-9)

  console.log(`The true cause is the largest share in ${(100 * rightIn(bakes)).toFixed(0)} % of a class of 30.`)
  expect(rightIn(bakes)).toBeGreaterThanOrEqual(0.9)
})

test("so they are in twenty such classes, and for each cause", () => {
  const all = Array.from({ length: 20 }, (_, seed) => classOf(30, seed + 1)).flat()
  for (const { rest } of all) expect(rest).toBeLessThanOrEqual(1e-9)

  const each = keys.map((key) => `${key} ${(100 * rightIn(all.filter(({ cause }) => cause === key))).toFixed(0)} %`)
  console.log(
    `In 20 classes of 30 the true cause is the largest in ${(100 * rightIn(all)).toFixed(1)} %: ${each.join(", ")}.`,
  )
  expect(rightIn(all)).toBeGreaterThanOrEqual(0.9)
  for (const key of keys) expect(rightIn(all.filter(({ cause }) => cause === key))).toBeGreaterThanOrEqual(0.85)
})
