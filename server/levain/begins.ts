import type { Say } from "../accounts/say.ts"
import type { DayStage } from "../dough/day/day.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import type { Preferment } from "../dough/levain/part.ts"
import { ripeInWords } from "../dough/levain/ripe-in-words.ts"
import { doubled } from "../dough/levain/ripening.ts"
import { gramsPerOunce } from "../dough/quantity/measures.ts"
import type { Stage } from "../dough/schedule.ts"
import { cToF, showShare } from "../dough/units.ts"
import type { Kitchen, Told } from "../kitchens/kitchen.ts"
import type { OwnDay } from "../plans/day.ts"
import { levainStage } from "../plans/levain.ts"
import { feedingWords } from "../plans/typed.ts"
import type { Viewer } from "../web/access.ts"
import type { Begun } from "../web/begun.ts"

type Known = {
  preferment: Preferment
  stages: Stage[]
  pieces?: number
  kitchen: Kitchen
  day?: OwnDay
  viewer: Pick<Viewer, "massUnit" | "temperatureUnit">
  say: Say
  now: Date
}

/** What the form begins with: from the formula, the person's kitchen and their own day, or our own guesses that say so. */
export function beginsWith(known: Known): Begun {
  const { preferment, kitchen, day, say } = known
  const stage = levainStage(known.stages)
  const times = timesOf(known, stage)
  const ripe = stage && ripeInWords(stage.cue, stage.tip, stage.name)
  return {
    // who has chosen a feeding for that day asks what to weigh for it
    find: { typed: times && !day?.wishes.feeding ? "feeding" : "ripe" },
    ...{ needed: needed(known), keep: keeps(known), sticks: sticksTo(preferment, kitchen) },
    starter: { typed: "" },
    starterHydration: kitchen.starterHydration
      ? { typed: percent(kitchen.starterHydration.value), from: toldIn(kitchen.starterHydration) }
      : { typed: "100", from: "Taken as equal parts, as you have not said." },
    at: warmthOf(known, stage),
    ratio: ratioOf(preferment, day),
    fed: times
      ? { typed: say.field(times.fedAt), from: "As your own day has it." }
      : { typed: say.field(soon(known.now)) },
    ripe: times ? { typed: say.field(times.ripeAt), from: "When your own day mixes the dough." } : { typed: "" },
    rise: ripe
      ? { typed: percent(ripe.rise), from: `The formula says “${ripe.words}”.` }
      : { typed: percent(doubled), from: "Doubled, our own choice: the formula does not say how far." },
    count: { typed: "" },
  }
}

function needed({ preferment, pieces, day, viewer }: Known): Begun[string] {
  const { usedG } = preferment
  if (!usedG) return { typed: "" }
  const asked = day?.wishes.pieces
  const factor = asked && pieces ? asked / pieces : 1
  const from = factor === 1 ? "As much as the formula has." : `For your ${asked} pieces; the formula is for ${pieces}.`
  return { typed: massTyped(usedG * factor, viewer), from }
}

function keeps({ kitchen: { jarKeepsG }, viewer }: Known): Begun[string] {
  return jarKeepsG ? { typed: massTyped(jarKeepsG.value, viewer), from: toldIn(jarKeepsG) } : { typed: "" }
}

function sticksTo({ stays }: Preferment, { jarKeepsG }: Kitchen): Begun[string] {
  if (stays) return { typed: "share" in stays ? showShare(stays.share) : `${stays.g} g`, from: "As the formula says." }
  if (jarKeepsG) return { typed: "0 %", from: "Is in what stays in your jar." }
  return { typed: "9 %", from: "Common practice for a small levain: the formula does not say." }
}

function warmthOf({ kitchen: { roomC }, day, viewer, say }: Known, stage: Stage | undefined): Begun[string] {
  const typed = (c: number) => String(Number((viewer.temperatureUnit === "F" ? cToF(c) : c).toFixed(1)))
  const place = (stage && day?.question.placeOf?.[stage.key]) ?? "room"
  const warmth = day?.basis.places[place]
  if (warmth && warmth.known !== "taken")
    return { typed: typed(warmth.c), from: `The ${placeWords[place]} of your own day.` }
  if (roomC) return { typed: typed(roomC.value), from: `Your room: ${toldIn(roomC)}` }
  return {
    typed: typed(usualRoomC),
    from: `Our guess: you have not told how warm your kitchen is (${say.temperature(usualRoomC)}).`,
  }
}
const placeWords = { room: "room", proofer: "warm box", cool: "cold place", fridge: "fridge" }
// An ordinary room. Our own guess.
const usualRoomC = 21

function ratioOf({ written }: Preferment, day: OwnDay | undefined): Begun[string] {
  const { feeding } = day?.wishes ?? {}
  if (feeding) return { typed: feedingWords(feeding), from: "As your own day has it." }
  if (written) return { typed: feedingWords(inStarters(written)), from: "As the formula has it." }
  return { typed: "1 : 2 : 2", from: "Our own choice: the formula does not say." }
}

/** In parts of one starter. */
export const inStarters = ({ starter, flour, water }: Ratio): Ratio => ({
  starter: 1,
  flour: flour / starter,
  water: water / starter,
})

/** When the own day feeds the levain and when it mixes the dough. */
function timesOf({ day, now }: Known, stage: Stage | undefined): { fedAt: Date; ripeAt: Date } | undefined {
  const stages = day?.answer.plan?.stages
  if (!stages?.length) return undefined
  const ripening = stages.find((one) => one.stage.key === stage?.key)
  const mixing = mixingIn(stages, day?.question.mixKey) ?? stages[0]!
  const ripeAt = ripening?.endsAt ?? mixing.startsAt
  return { fedAt: ripening?.startsAt ?? (now < ripeAt ? soon(now) : new Date(+ripeAt - usualMs)), ripeAt }
}
// Overnight, where no stage says how long a levain ripens. Our own choice.
const usualMs = 10 * 3_600_000

const mixingIn = (stages: DayStage[], key: string | undefined) =>
  key ? stages.find(({ stage }) => stage.key === key) : stages.find(({ stage }) => stage.kind === "mix")

/** The next whole five minutes. */
const soon = (now: Date) => new Date(Math.ceil(+now / fiveMinMs) * fiveMinMs)
const fiveMinMs = 300_000

const toldIn = ({ known }: Told<unknown>) =>
  known === "measured" ? "Measured, as you told of your kitchen." : "Assumed, as you told of your kitchen."

const percent = (share: number) => String(Number((share * 100).toFixed(1)))

/** A mass as somebody would type it in their own unit. */
export function massTyped(g: number, { massUnit }: Pick<Viewer, "massUnit">): string {
  if (massUnit === "g") return String(Number(g.toFixed(g < 100 ? 1 : 0)))
  const oz = g / gramsPerOunce
  return String(Number(oz.toFixed(oz < 10 ? 2 : 1)))
}
