import type { Range } from "../amounts.ts"
import { doughFactor } from "../fermentation/gates.ts"
import { type Culture, growthPerHour, rate, referenceC } from "../fermentation/growth.ts"
import { hoursToGas } from "../fermentation/leaven.ts"
import { refrigeratedLoafTauHours, towardSurroundingsC } from "../heat/newton.ts"
import { cues } from "./cues.ts"
import type { BakeFacts, ToldStage } from "./facts.ts"
import { progresses } from "./hypotheses.ts"
import { nearByClock, type Piece, times } from "./likelihoods.ts"

/**
 * How far a dough had come, from the stages that were told: the reference hours they make, against the plan's or those in
 * which such a dough usually comes to the oven. As a logarithm, with its standard deviation; undefined where neither a
 * time nor a temperature of the dough was told, or nobody said what raised it. A rise without a length is taken to have
 * lasted as usual, and so is a first rise that was not mentioned, since there always is one. A rest counts for nothing: most
 * are before the leaven is in.
 */
function progressByStages(facts: BakeFacts): ByStages | undefined {
  const { culture, stages } = facts
  const rises = stages.filter(({ kind }) => isRise(kind))
  if (!culture) return undefined
  const timed = stages.filter(({ kind, min }) => (isRise(kind) || kind === "wait") && min)
  if (!timed.some(({ kind }) => isRise(kind))) return byWarmth(facts, rises)

  const shares = shareOf(facts)
  const usual =
    facts.plannedHours ?? hoursToGas({ culture, share: shares.usual }, usualGas[culture]) / paceBySugarAndSalt(facts)
  const told = hoursIn(timed, culture)
  const has = (kind: ToldStage["kind"]) => rises.some((stage) => stage.kind === kind)
  const hasTimed = (kind: ToldStage["kind"]) => timed.some((stage) => stage.kind === kind)
  const untold = {
    bulk: hasTimed("bulk") ? 0 : firstRise,
    proof: hasTimed("proof") || !has("proof") ? 0 : 1 - firstRise,
  }
  const guessed = (untold.bulk + untold.proof) * usual
  const unsaid = rises.some(({ kind }) => kind !== "bulk") ? 0 : doubts.lastRiseUnsaid
  const hours = Math.max(told.hours + guessed, 0.05)
  const sd = Math.hypot(told.sd * (told.hours / hours), doubts.stageUntold * (guessed / hours), doubts.dough)
  return { at: Math.log(hours / usual), sd: Math.hypot(sd, shares.sd, unsaid), hours, usual }
}
type ByStages = { at: number; sd: number; hours?: number; usual?: number }

const isRise = (kind: ToldStage["kind"]) => kind === "bulk" || kind === "proof" || kind === "retard"
/** Of all the hours to the oven, what the first rise usually takes. Common practice, no published source. */
const firstRise = 0.65

/**
 * What a dough has made of gas when it meets the oven, in the culture's own unit: sourdough with 10 % prefermented flour
 * after 5 h of bulk and 2 h of proof at 24 °C; baker's yeast, 1 % instant, after 1½ h and 1 h at 25 °C. Both common
 * practice, no published source.
 */
const usualGas = { sourdough: 0.85, "baker's yeast": 2.7 }

/**
 * Standard deviations of the logarithm of hours, our own judgement: how unlike two doughs and bakers' aims are; a rise
 * whose length was not told; a last rise that nobody mentioned; a leaven whose share was not told.
 */
const doubts = {
  dough: 0.25,
  stageUntold: 0.5,
  lastRiseUnsaid: 0.2,
  shareUntold: { sourdough: 0.3, "baker's yeast": 0.6 },
}
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
function hoursIn(stages: ToldStage[], culture: Culture) {
  let doughC = usualRoomC
  let hours = 0
  let variance = 0
  for (const stage of stages) {
    const [lasts, spread] = [middle(stage.min!) / 60, spreadOf(stage.min!)]
    const cold = isCold(stage)
    const aroundC = stage.c ? middle(stage.c) : cold ? usualFridgeC : usualRoomC
    const sdC = sdOf(stage) + (stage.c ? (stage.c.high - stage.c.low) / 4 : 0)
    const at = (c: number) => (cold ? coolingHours(doughC, c, lasts, culture) : lasts * rateAt(c, culture))
    const gained = at(aroundC)
    // how far off the hours are where the temperature is off by one sd, halfway up and down
    const byWarmth = (at(aroundC + sdC) - at(aroundC - sdC)) / 2
    hours += gained
    variance += byWarmth ** 2 + (gained * spread) ** 2 + (cold ? gained * coldDoubt : 0) ** 2
    doughC = cold ? towardSurroundingsC({ startC: doughC, surroundingsC: aroundC, tauHours, hours: lasts }) : aroundC
  }
  return { hours, sd: hours > 0 ? Math.sqrt(variance) / hours : 1 }
}
const tauHours = refrigeratedLoafTauHours
const isCold = ({ kind, of }: ToldStage) => kind === "retard" || of === "fridge"

function sdOf({ c, of, known }: ToldStage) {
  if (!c) return of === "fridge" ? 1.5 : temperatureSdC.untold
  if (known && known !== "measured") return temperatureSdC.assumed
  return of === "dough" ? temperatureSdC.dough : of === "fridge" ? 1 : temperatureSdC.room
}

/**
 * In the cold a dough ages by its acid more than by its gas, so at the faster of its own rate and that of the lactobacilli,
 * a fourteenth of the usual at 4 °C. The yeast's rate alone would say a fortieth; bakers reckon a third or a quarter
 * (answers in The Bread Code, no. 159). Which it is, is our own judgement, and doubtful by half.
 */
const coldRate = (c: number, culture: Culture) =>
  Math.max(
    rateAt(c, culture),
    growthPerHour("L. sanfranciscensis", c) / growthPerHour("L. sanfranciscensis", referenceC),
  )
const coldDoubt = 0.5
const coldBelowC = 10

function coolingHours(startC: number, surroundingsC: number, lasts: number, culture: Culture) {
  const steps = 24
  let total = 0
  for (let step = 0; step < steps; step++) {
    const hours = (lasts * (step + 0.5)) / steps
    const c = towardSurroundingsC({ startC, surroundingsC, tauHours, hours })
    total += c < coldBelowC ? coldRate(c, culture) : rateAt(c, culture)
  }
  return (total / steps) * lasts
}

/** What lies outside a dough's temperatures is held at their ends: a told oven or a frost outdoors is no dough's. */
const rateAt = (c: number, culture: Culture) => rate(Math.min(Math.max(c, -5), 45), culture)

/** The usual time at another warmth than usual, where no time was told: only which way it pulls. */
function byWarmth({ culture, cues: told }: BakeFacts, rises: ToldStage[]): ByStages | undefined {
  const warm = rises.filter((stage) => stage.c && !isCold(stage))
  if (!warm.length || told.some((key) => cues[key].group === "warmth")) return undefined
  const c = warm.reduce((sum, stage) => sum + middle(stage.c!), 0) / warm.length
  // bakers who know their kitchen give it more time: half of what warmth alone would do, our own judgement
  return { at: Math.log(Math.max(rateAt(c, culture!), 0.2)) / 2, sd: 0.45 }
}

/** The same, ready to be weighed. It decides nothing alone. */
export function pieceOfStages(facts: BakeFacts): Piece | undefined {
  if (facts.hours?.planned || facts.plannedHours === 0) return undefined
  const told = progressByStages(facts)
  if (!told || told.sd > mostDoubt) return undefined
  return {
    key: "stages",
    words: wordsFor(told, facts),
    source: "the fermentation model; what is usual: common practice, no published source",
    ...{ group: "hours", decides: told.hours !== undefined, measured: false },
    logs: nearByClock(Math.min(Math.max(told.at, progresses[0]!), progresses.at(-1)!), told.sd),
  }
}
const mostDoubt = 0.9

function wordsFor({ at, hours, usual }: ByStages, { plannedHours }: BakeFacts) {
  if (hours === undefined || usual === undefined)
    return at < 0 ? "It stood cool, and nobody said how long" : "It stood warm, and nobody said how long"
  const against = plannedHours ? "the plan asks for" : "such a dough usually takes"
  return `About ${hours.toFixed(1)} reference hours by the stages told, where ${against} about ${usual.toFixed(1)}`
}

/**
 * Whether the levain itself had stood far too long: reference hours from its feeding against about 6.5, in which one fed 1 : 2 : 2
 * is ripe at 24 °C (common practice, no published source; a bigger feeding takes up to twice that). Over 8 h at 25 °C is too
 * long for a sour (rec.food.sourdough FAQ no. 47). How fast that tells is our own judgement.
 */
export function pieceOfLevain({ stages, culture }: BakeFacts): Piece | undefined {
  const levain = stages.filter(({ kind, min }) => kind === "levain" && min)
  if (culture === "baker's yeast" || !levain.length) return undefined
  const { hours } = hoursIn(levain.slice(-1), "sourdough")
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
