import type { Range } from "../amounts.ts"
import { doughFactor } from "../fermentation/gates.ts"
import { rate } from "../fermentation/growth.ts"
import { hoursToGas } from "../fermentation/leaven.ts"
import { refrigeratedLoafTauHours, towardSurroundingsC } from "../heat/newton.ts"
import type { BakeFacts, ToldStage } from "./facts.ts"
import { progresses } from "./hypotheses.ts"
import { nearByClock, type Piece, times } from "./likelihoods.ts"

/**
 * How far a dough without a plan had come, from the stages that were told: the reference hours they make, against those in
 * which such a dough usually comes to the oven. As a logarithm, with its standard deviation; undefined where neither a
 * time nor a temperature of the dough was told, or nobody said what raised it.
 */
export function progressByStages(
  facts: BakeFacts,
): { at: number; sd: number; hours: number; usual: number } | undefined {
  const { culture, stages } = facts
  const working = stages.filter(({ kind }) => kind !== "levain")
  if (!culture || !working.length) return undefined
  const timed = working.filter(({ min }) => min)
  const rises = working.filter(({ kind }) => kind === "bulk" || kind === "proof" || kind === "retard")
  if (!timed.some(({ kind }) => kind === "bulk" || kind === "proof" || kind === "retard")) return byWarmth(facts, rises)

  const shares = shareOf(facts)
  const usual =
    facts.plannedHours ?? hoursToGas({ culture, share: shares.usual }, usualGas[culture]) / paceBySugarAndSalt(facts)
  const { hours, sd } = hoursIn(timed, culture)
  const untold = rises.filter(({ min }) => !min).length + (rises.length < 2 ? 1 : 0)
  const doubt = Math.hypot(sd, doubts.dough, shares.sd, untold * doubts.stageUntold)
  return { at: Math.log(Math.max(hours, 0.05) / usual), sd: doubt, hours, usual }
}

/**
 * What a dough has made of gas when it meets the oven, in the culture's own unit: sourdough with 10 % prefermented flour
 * after 5 h of bulk and 2 h of proof at 24 °C; baker's yeast, 1 % instant, after 1½ h and 1 h at 25 °C. Both common
 * practice, no published source.
 */
const usualGas = { sourdough: 0.85, "baker's yeast": 2.7 }

/**
 * Standard deviations of the logarithm of hours, our own judgement: how unlike two doughs and bakers' aims are; a rise
 * whose length was not told; a leaven whose share was not.
 */
const doubts = { dough: 0.25, stageUntold: 0.25, shareUntold: { sourdough: 0.3, "baker's yeast": 0.6 } }
/** By the kind of temperature that was told, °C; without one, a room as kitchens are. Our own judgement. */
const temperatureSdC = { dough: 1, room: 2, assumed: 2, untold: 3 }
const usualRoomC = 22
const usualFridgeC = 4
/** Prefermented flour, and instant yeast, as they usually are; common practice, no published source. */
const usualShare = { sourdough: 0.1, "baker's yeast": 0.01 }

function shareOf({ leavenShare, culture }: BakeFacts) {
  if (leavenShare && leavenShare > 0 && leavenShare <= 1) return { usual: leavenShare, sd: 0.1 }
  return { usual: usualShare[culture!], sd: doubts.shareUntold[culture!] }
}

const paceBySugarAndSalt = ({ sugar = 0, salt }: BakeFacts) =>
  Math.max(
    0.2,
    doughFactor({ saltShare: salt ? Math.min(middle(salt), 0.06) : 0.02, sugarShare: Math.min(sugar, 0.3) }),
  )

/** Reference hours of stages one after the other; a fridge cools what goes in warm. */
function hoursIn(stages: ToldStage[], culture: NonNullable<BakeFacts["culture"]>) {
  let doughC = usualRoomC
  let hours = 0
  let variance = 0
  for (const stage of stages) {
    const [lasts, spread] = [middle(stage.min!) / 60, spreadOf(stage.min!)]
    const cold = stage.kind === "retard" || stage.of === "fridge"
    const aroundC = stage.c ? middle(stage.c) : cold ? usualFridgeC : usualRoomC
    const sdC = sdOf(stage) + (stage.c ? (stage.c.high - stage.c.low) / 4 : 0)
    const at = (c: number) => (cold ? coolingHours(doughC, c, lasts, culture) : lasts * rateAt(c, culture))
    const gained = at(aroundC)
    // how far off the hours are where the temperature is off by one sd, halfway up and down
    const byWarmth = (at(aroundC + sdC) - at(aroundC - sdC)) / 2
    hours += gained
    variance += byWarmth ** 2 + (gained * spread) ** 2
    doughC = cold ? towardSurroundingsC({ startC: doughC, surroundingsC: aroundC, tauHours, hours: lasts }) : aroundC
  }
  return { hours, sd: hours > 0 ? Math.sqrt(variance) / hours : 1 }
}
const tauHours = refrigeratedLoafTauHours

function sdOf({ c, of, known }: ToldStage) {
  if (!c) return of === "fridge" ? 1.5 : temperatureSdC.untold
  if (known && known !== "measured") return temperatureSdC.assumed
  return of === "dough" ? temperatureSdC.dough : of === "fridge" ? 1 : temperatureSdC.room
}

function coolingHours(
  startC: number,
  surroundingsC: number,
  lasts: number,
  culture: NonNullable<BakeFacts["culture"]>,
) {
  const steps = 24
  let total = 0
  for (let step = 0; step < steps; step++) {
    const hours = (lasts * (step + 0.5)) / steps
    total += rateAt(towardSurroundingsC({ startC, surroundingsC, tauHours, hours }), culture)
  }
  return (total / steps) * lasts
}

/** What lies outside a dough's temperatures is held at their ends: a told oven or a frost outdoors is no dough's. */
const rateAt = (c: number, culture: NonNullable<BakeFacts["culture"]>) => rate(Math.min(Math.max(c, -5), 45), culture)

/** The usual time at another warmth than usual, where no time was told: only which way it pulls. */
function byWarmth({ culture }: BakeFacts, rises: ToldStage[]) {
  const told = rises.filter(({ c, of, kind }) => c && of !== "fridge" && kind !== "retard")
  if (!told.length) return undefined
  const c = told.reduce((sum, stage) => sum + middle(stage.c!), 0) / told.length
  const pace = rateAt(c, culture!)
  // bakers who know their kitchen give it more time: half of what warmth alone would do
  return { at: Math.log(Math.max(pace, 0.2)) / 2, sd: 0.45, hours: Number.NaN, usual: Number.NaN }
}

/** The same, ready to be weighed. It decides nothing alone. */
export function pieceOfStages(facts: BakeFacts): Piece | undefined {
  if (facts.hours?.planned || facts.plannedHours === 0) return undefined
  const told = progressByStages(facts)
  if (!told || told.sd > 0.9) return undefined
  const words = Number.isNaN(told.hours)
    ? told.at < 0
      ? "It stood cool, and nobody said how long"
      : "It stood warm, and nobody said how long"
    : `About ${told.hours.toFixed(1)} reference hours by the stages told, where ${facts.plannedHours ? "the plan asks for" : "such a dough usually takes"} about ${told.usual.toFixed(1)}`
  return {
    key: "stages",
    words,
    source: "the fermentation model; what is usual: common practice, no published source",
    ...{ group: "hours", decides: !Number.isNaN(told.hours), measured: false },
    logs: nearByClock(Math.min(Math.max(told.at, progresses[0]!), progresses.at(-1)!), told.sd),
  }
}

/**
 * Whether the levain itself had stood far too long: reference hours from its feeding against about 6.5, in which one fed 1 : 2 : 2
 * is ripe at 24 °C (common practice, no published source; a bigger feeding takes up to twice that). Over 8 h at 25 °C is too
 * long for a sour (rec.food.sourdough FAQ no. 47). How fast that tells is our own judgement.
 */
export function pieceOfLevain({ stages, culture }: BakeFacts): Piece | undefined {
  const levain = stages.filter(({ kind, min }) => kind === "levain" && min)
  if (culture === "baker's yeast" || !levain.length) return undefined
  const { hours } = hoursIn(levain, "sourdough")
  const past = Math.log(hours / ripeAfterHours)
  const overRipe = 1 + 8 / (1 + Math.exp((Math.log(2.5) - past) / 0.15))
  const young = 1 + 3 / (1 + Math.exp((past - Math.log(0.35)) / 0.15))
  if (overRipe < 1.2 && young < 1.2) return undefined
  return {
    key: "levain",
    words: `The levain stood about ${hours.toFixed(0)} reference hours; most are ripe after 5 to 12`,
    source: "rec.food.sourdough FAQ no. 47; the rest common practice, no published source",
    ...{ group: "levain's time", decides: true, measured: false },
    logs: times({ "levain over-ripe": overRipe, "levain weak": young }),
  }
}
const ripeAfterHours = 6.5

const middle = ({ low, high }: Range) => (low + high) / 2
/** As a share of the middle; nobody keeps time to better than a twentieth. */
const spreadOf = (range: Range) => Math.max(0.05, (range.high - range.low) / 4 / Math.max(middle(range), 1))
