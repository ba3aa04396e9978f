import type { Say } from "../accounts/say.ts"
import type { Apart } from "../dough/class-picture/apart.ts"
import type { Explained } from "../dough/class-picture/explained.ts"
import { leastShared, type Proposal } from "../dough/class-picture/proposals.ts"
import { isShared, type SharedDifference } from "../dough/class-picture/shared.ts"
import type { Stage } from "../dough/schedule.ts"
import { causeNames, degrees, leadIn } from "../table/cause-words.ts"
import type { ClassPicture, Timed } from "./picture.ts"
import { spreadNames } from "./plots.ts"

/** The one large sentence of the page, and what stands under it. */
export function headlineIn(picture: ClassPicture, say: Say): { big: string; small: string } {
  const { explained, against, led } = picture
  const sharedLead = against.lead && isShared(against.lead, leastShared.leadMin) ? against.lead : undefined
  const [first] = explained.enough ? explained.value.parts : []
  const spread = explained.enough ? `The leads spread by ± ${say.minutes(explained.value.sdMin)}.` : ""
  if (sharedLead)
    return {
      big: `The class came to the oven ${leadIn(sharedLead.middle, say)}`,
      small: `${countIn(sharedLead)} ${spread}`,
    }
  if (explained.enough && first && explained.value.sdMin >= leastSpreadMin && first.share >= leastTold)
    return { big: `${spreadNames[first.key]} explains ${percentIn(first.share)} of the spread`, small: spread }
  const leads = led.map(({ causes }) => causes.leadMin)
  const within = leads.map(Math.abs).sort((a, b) => a - b)[Math.ceil(leads.length * 0.8) - 1]!
  const nothing = `Nothing that ${led.length} bakes have in common stands out against the plan.`
  if (within <= closeMin)
    return { big: `Four bakes in five came to the oven within ${say.minutes(within)} of their plan`, small: nothing }
  const ends = [Math.min(...leads), Math.max(...leads)].map((min) => leadIn(min, say))
  return { big: `From ${ends.join(" to ")}`, small: `${nothing} ${spread}` }
}
const closeMin = 30
// What spreads by less is as even as kitchens get; what explains less of it is not the story. Our own judgement.
const leastSpreadMin = 15
const leastTold = 0.3

const percentIn = (share: number): string => `${share < 0 ? "−" : ""}${Math.abs(Math.round(share * 100))} %`

/** "9 of 11 bakes lie on that side." */
const countIn = ({ above, below, equal, middle }: SharedDifference) =>
  `${middle > 0 ? above : below} of ${above + below + equal} bakes lie on that side.`

const spanIn = ({ limits }: SharedDifference, words: (value: number) => string) =>
  `${words(limits.low)} to ${words(limits.high)}`

/** Everything in which nearly all bakes differ from their plan the same way, a sentence each. */
export function sharedIn({ against }: ClassPicture, stages: Stage[], say: Say): string[] {
  const lengths = against.stages.flatMap(({ key, difference }) => {
    if (!isShared(difference, leastShared.stageMin)) return []
    const { middle } = difference
    const size = `${say.minutes(Math.abs(middle))} ${middle > 0 ? "longer" : "shorter"} than planned`
    const span = spanIn(difference, (min) => say.minutes(Math.round(min)))
    return [`${nameOf(stages, key)}: ${size} (${span}). ${countIn(difference)}`]
  })
  const { temperature, lead, rise, liveliness } = against
  return [
    ...lengths,
    ...tell(temperature, leastShared.temperatureC, ({ middle }) => [
      `The dough: ${degrees(Math.abs(middle), say)} ${middle > 0 ? "warmer" : "colder"} than planned`,
      (c) => `${c < 0 ? "−" : ""}${degrees(Math.abs(c), say)}`,
    ]),
    ...tell(rise, leastShared.rise, ({ middle }) => [
      `The rise before shaping: ${Math.abs(Math.round(middle * 100))} points ${middle > 0 ? "above" : "below"} the target`,
      (share) => String(Math.round(share * 100)).replace("-", "−"),
    ]),
    ...tell(liveliness, leastShared.liveliness, ({ middle }) => [
      `The leavens: ${percentIn(Math.abs(Math.exp(middle) - 1))} ${middle > 0 ? "livelier" : "less lively"} than the plan takes them to be`,
      (log) => percentIn(Math.exp(log) - 1),
    ]),
    ...tell(lead, leastShared.leadMin, ({ middle }) => [
      `At the oven: ${leadIn(middle, say)}`,
      (min) => say.minutes(Math.round(min)),
    ]),
  ]
}

function tell(
  difference: SharedDifference | undefined,
  least: number,
  words: (difference: SharedDifference) => [string, (value: number) => string],
): string[] {
  if (!difference || !isShared(difference, least)) return []
  const [sentence, value] = words(difference)
  return [`${sentence} (${spanIn(difference, value)}). ${countIn(difference)}`]
}

/** A proposed figure in words, and why. */
export function proposalIn(proposal: Proposal, stages: Stage[], say: Say): { what: string; why: string } {
  switch (proposal.kind) {
    case "length": {
      const { stageKey, was, now, because } = proposal
      const range = ({ lowMin, highMin }: typeof now) => say.minutesRange(lowMin, highMin)
      const why =
        because === "taken"
          ? "because that is how long the class took"
          : "so that it ferments as much at the warmth the class had"
      return { what: `${nameOf(stages, stageKey)} ${range(now)}, not ${range(was)}`, why }
    }
    case "reference": {
      const names = proposal.stageKeys.map((key) => nameOf(stages, key)).join(" and ")
      const what = `${names} meant for ${say.temperature(proposal.nowC)}, not ${say.temperature(proposal.wasC)}`
      return { what, why: "because the class’s doughs were that warm" }
    }
    case "leaven": {
      const faster = `${percentIn(Math.abs(proposal.ratio - 1))} ${proposal.ratio > 1 ? "livelier" : "less lively"}`
      const what = `A leaven of ${say.percent(proposal.now)} of the flour, not ${say.percent(proposal.was)}`
      return { what, why: `because the class’s leavens were ${faster}, so that the planned times fit again` }
    }
    case "target rise": {
      const what = `A target of ${say.rise(proposal.now)} before shaping, not ${say.rise(proposal.was)}`
      return { what, why: "because the bakes that came out well were shaped at that" }
    }
  }
}

const nameOf = (stages: Stage[], key: string): string => stages.find((stage) => stage.key === key)?.name ?? "A stage"

/** How the time to the target goes with temperature. */
export function lineIn({ line, bakes }: Timed, say: Say): string {
  if (!line.enough) return bakes.length ? `No line is drawn through them. ${line.why}` : line.why
  const { slope, limits, rho } = line.value
  const perDegree = (hours: number) =>
    say.minutes(Math.abs(Math.round(hours * 60 * (say.temperatureUnit === "F" ? 5 / 9 : 1))))
  const size = `Each °${say.temperatureUnit} warmer took ${perDegree(slope)} ${slope < 0 ? "off" : "more"}`
  const span =
    limits.enough && limits.value.low * limits.value.high > 0
      ? ` (95 % limits ${[limits.value.low, limits.value.high]
          .map(perDegree)
          .sort((a, b) => a.localeCompare(b, "en", { numeric: true }))
          .join(" to ")})`
      : ", but with limits on both sides of nothing at all: these bakes do not tell"
  const sure = rho.enough
    ? ` By rank they go together with ρ ${rho.value.rho.toFixed(2).replace("-", "−")}, p ${rho.value.p.toFixed(rho.value.p < 0.1 ? 3 : 2)}.`
    : ""
  return `${size}${span}.${sure}`
}

/** What is told beside the shares of the spread. */
export function explainedIn(
  { sdMin, counted, flours, livelinessCounted, leftOut }: Explained,
  say: Say,
  names: Map<string, string>,
): string[] {
  const out = leftOut.map((key) => names.get(key) ?? "a bake")
  return [
    `The leads of ${counted.length} bakes spread by ± ${say.minutes(sdMin)}, one standard deviation.`,
    livelinessCounted
      ? "Leaven is how much of it there was and how lively it was."
      : "Leaven is only how much of it there was: too few jars were read to say how lively it was.",
    flours.length
      ? `Flour is what bakes with the same flour had in common: ${flours.map(({ name, bakes }) => `${name}, ${bakes} bakes`).join("; ")}.`
      : "Flour is not told apart: there are not three bakes each of two flours.",
    ...(out.length
      ? [
          `Left out, as ${out.length === 1 ? "it stands" : "they stand"} too far apart: ${out.join(", ").replace(/\.$/, "")}.`,
        ]
      : []),
  ]
}

/** Why a bake stands apart. */
export function apartIn({ leadMin, z, reason }: Apart, say: Say): string {
  const score = `modified z ${z.toFixed(1).replace("-", "−")}`
  if (!reason) return `${leadIn(leadMin, say)} (${score}); no one cause carries even half of that.`
  const size = `${say.minutes(Math.abs(reason.min))} ${reason.min > 0 ? "more" : "less"} than the middle of the class`
  return `${leadIn(leadMin, say)} (${score}), most of it from ${causeNames[reason.key]}: ${size}.`
}
