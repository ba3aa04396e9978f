import { bulkRiseTarget } from "../fermentation/end-points.ts"
import type { BakeFacts, Finger } from "./facts.ts"
import { perCell, progresses } from "./hypotheses.ts"
import { logNear, nearByClock, nearProgress, type Piece } from "./likelihoods.ts"

const own = "our own judgement, no published source"

/** What was measured or timed of a bake, one piece each. */
export function piecesOfNumbers(facts: BakeFacts): Piece[] {
  return [
    ofHours(facts),
    ofRise(facts),
    ofFinger(facts),
    ofPh(facts),
    ofInside(facts),
    ofBakeLoss(facts),
    ofVolume(facts),
  ].filter((one) => one !== undefined)
}

/** Widths on the log scale: where the dough's temperature was measured all along, and where all of it was assumed. */
const hoursSd = { measured: 0.15, assumed: 0.4 }
// Less than a tenth of what was intended is simply "hardly any", and zero has no logarithm: both count as a tenth.
const leastRatio = 0.1

function ofHours({ hours }: BakeFacts): Piece | undefined {
  if (!hours?.planned || hours.planned < 0) return undefined
  const { done, planned, asMade = planned, assumedShare } = hours
  const assumed =
    assumedShare > 0.05 ? `; for ${Math.round(assumedShare * 100)} % of that time the dough temperature is assumed` : ""
  const differs = oneDecimal(asMade) !== oneDecimal(planned)
  const leaven = differs ? `, or ${oneDecimal(asMade)} with the leaven it had` : ""
  return {
    key: "hours",
    words: `${oneDecimal(done)} reference hours against ${oneDecimal(planned)} planned${leaven}${assumed}`,
    source: `the fermentation model; its widths ${own}`,
    ...{ group: "hours", decides: true, measured: true },
    logs: nearByClock(
      onLine(Math.log(Math.max(done / asMade, leastRatio))),
      hoursSd.measured + (hoursSd.assumed - hoursSd.measured) * assumedShare,
    ),
  }
}

/**
 * How much steeper than time a dough rises where bakers stop it: by our own model, 10 % prefermented flour at 25 °C, +15 %
 * after 3 h, +30 % after 4¼ h, +68 % after 9 h.
 */
const riseSlope = 1.3
/** On log progress. `noTarget`: what a usual dough is taken to. `fallen`: pressed, or risen and fallen back. Our own judgement. */
const riseSd = { measured: 0.25, felt: 0.35, noTarget: 0.3, fallen: 0.5 }
const fallenAt = 0.35

function ofRise({ rise, stages }: BakeFacts): Piece | undefined {
  if (!rise || rise.known === "assumed") return undefined
  const felt = rise.known === "felt"
  const piece = { key: "rise", group: "rise", source: `${own}; slope by our own model`, measured: true }
  if (rise.share < 0) {
    const words = `The dough stands ${percent(-rise.share)} lower than it started: pressed, or risen and fallen back`
    return { ...piece, words, decides: false, logs: nearProgress(fallenAt, riseSd.fallen) }
  }
  const target = rise.target && rise.target > 0 ? rise.target : undefined
  const usual = target ?? usualRise(stages)
  const against = target ? `a target of ${percent(target)}` : `about ${percent(usual)}, as doughs are usually taken to`
  const logs = nearProgress(
    onLine(Math.log(Math.max(rise.share / usual, leastRatio)) / riseSlope),
    Math.hypot(felt ? riseSd.felt : riseSd.measured, target ? 0 : riseSd.noTarget),
  )
  const words = `Risen by ${percent(rise.share)}${felt ? ", by eye," : ""} against ${against}`
  return { ...piece, words, decides: true, measured: target !== undefined, logs }
}

/** By the dough's temperature, else as at 24 °C. */
function usualRise(stages: BakeFacts["stages"]) {
  const bulk = stages.find(({ kind, c }) => kind === "bulk" && c)?.c
  return (bulk && bulkRiseTarget((bulk.low + bulk.high) / 2)) ?? 0.5
}

/**
 * That dough springs back when young and keeps the dent when ripe is common teaching (University of Wyoming Extension; TM
 * 10-412, US Armed Forces Recipe Service 2003). A dent that stays means ready in a first rise and past it in a last one
 * (theperfectloaf.com, on the test): it never decides. The sizes are our own judgement.
 */
const finger: Record<"bulk" | "proof", Record<Finger, { at: number; sd: number }>> = {
  proof: {
    "straight-back": { at: -0.35, sd: 0.4 },
    "slowly-partly": { at: 0, sd: 0.3 },
    stays: { at: 0.35, sd: 0.4 },
  },
  bulk: {
    "straight-back": { at: -0.35, sd: 0.5 },
    "slowly-partly": { at: 0, sd: 0.5 },
    stays: { at: 0.1, sd: 0.5 },
  },
}
const fingerWords: Record<Finger, string> = {
  "straight-back": "The finger test sprang straight back",
  "slowly-partly": "The finger test came back slowly and partly",
  stays: "The finger test stayed in",
}

function ofFinger({ finger: test }: BakeFacts): Piece | undefined {
  if (!test) return undefined
  const { at, sd } = finger[test.at][test.found]
  return {
    key: "finger",
    words: fingerWords[test.found] + (test.at === "bulk" ? ", in the first rise" : ""),
    source: "University of Wyoming Extension; TM 10-412 (2003); theperfectloaf.com; sizes our own judgement",
    ...{ group: "finger", decides: false, measured: false },
    logs: nearProgress(at, sd),
  }
}

/**
 * A sourdough goes to the oven between about 4.2 and 4.6, an over-mature sour is at 3.8 and less (rec.food.sourdough FAQ no.
 * 47): the first range is our own judgement. Acid goes with progress, but an over-ripe levain brings its own.
 */
function ofPh({ ph, culture }: BakeFacts): Piece | undefined {
  if (ph === undefined || culture === "baker's yeast") return undefined
  const usual = 4.4
  return {
    key: "ph",
    words: `The dough's pH was ${ph.toFixed(1)}, where about ${usual} is usual at the oven`,
    source: `rec.food.sourdough FAQ no. 47; the rest ${own}`,
    ...{ group: "ph", decides: true, measured: false },
    logs: perCell((x, fault) => logNear((usual - ph) / 0.6, x + (fault === "levain over-ripe" ? 0.4 : 0), 0.45)),
  }
}

/**
 * Baked bread is 93–99 °C inside, enriched loaves from about 88 °C (Home Baking Association; a flour company's test bakes);
 * what is underbaked some 8 °C less is our own judgement, as are the widths.
 */
const inside = { leanC: 96.5, richC: 92, shortC: 8, sdC: 3.5 }
const richFrom = 0.1

function ofInside({ insideC, fat, sugar }: BakeFacts): Piece | undefined {
  if (insideC === undefined) return undefined
  const rich = (fat ?? 0) + (sugar ?? 0) >= richFrom
  const doneC = rich ? inside.richC : inside.leanC
  const inDegrees = (centreC: number) => logNear((insideC - centreC) / inside.sdC, 0, 1)
  const [done, short] = [inDegrees(Math.max(doneC, Math.min(insideC, doneC + 3))), inDegrees(doneC - inside.shortC)]
  return {
    key: "inside",
    words: insideC < doneC - inside.shortC / 2 ? "The inside was not hot enough" : "The inside was hot enough",
    source: `Home Baking Association; a flour company's test bakes; widths ${own}`,
    ...{ group: "baked through", decides: true, measured: false },
    logs: perCell((_x, fault) => (fault === "underbaked" ? short : done)),
  }
}

/** 10–13 % of the dough (Gisslen), 10.7–18.2 % as bakers measured it; less than that is underbaked, by our own judgement. */
function ofBakeLoss({ bakeLoss }: BakeFacts): Piece | undefined {
  if (bakeLoss === undefined) return undefined
  return {
    key: "bake loss",
    words: `It lost ${percent(bakeLoss)} of its mass in the oven, where 10 to 15 % is usual`,
    source: `Gisslen, Professional Baking; widths ${own}`,
    ...{ group: "baked through", decides: false, measured: false },
    logs: perCell((_x, fault) =>
      fault === "underbaked" ? logNear((bakeLoss - 0.075) / 0.03, 0, 1) : logNear((bakeLoss - 0.13) / 0.04, 0, 1),
    ),
  }
}

/**
 * Whole white loaves are usually quoted at 3.5–5 ml/g (a weak source). A short dough makes a smaller loaf; one that went too
 * far a bigger one in a tin and a smaller one without (Freilich 1949 and Lowe, as quoted): so never by itself. How it
 * falls off, and with which faults, is our own judgement.
 */
function ofVolume({ specificVolume, vessel }: BakeFacts): Piece | undefined {
  if (specificVolume === undefined || !(specificVolume > 0)) return undefined
  const past = vessel === "tin" ? 0.1 : vessel ? -0.4 : -0.1
  const heavy = ["yeast missing", "cold oven", "flour by cup", "levain over-ripe", "weak gluten"]
  return {
    key: "specific volume",
    words: `${oneDecimal(specificVolume)} ml of bread from each gram, where 3.5 to 5 is usual`,
    source: `usual range from a weak source; the rest ${own}`,
    ...{ group: "volume", decides: false, measured: false },
    logs: perCell((x, fault) => {
      const usual = Math.log(4.1) + (x < 0 ? 0.5 * x : past * x) - (fault && heavy.includes(fault) ? 0.35 : 0)
      return logNear(Math.log(specificVolume), usual, 0.3)
    }),
  }
}

const onLine = (progress: number) => Math.min(Math.max(progress, progresses[0]!), progresses.at(-1)!)
const oneDecimal = (value: number) => value.toFixed(1)
const percent = (share: number) => `${Math.round(share * 100)} %`
