import type { Say } from "../accounts/say.ts"
import type { DayStage, Place } from "../dough/day/day.ts"
import { cToF, fToC } from "../dough/units.ts"
import { dayOf } from "../web/zones.ts"
import type { Moment } from "./moments.ts"

/** Whose clock and degrees, and what that person calls the places of their kitchen. */
type Told = { say: Say; places: Record<Place, string> }

/** What somebody who opens a moment wants to know of it, a line each; times are by that person's clock. */
export function linesOf(moment: Moment, told: Told): string[] {
  const { stage, nth, of } = moment
  if (!stage) return []
  const { cue, tip } = stage.stage
  return [
    rangeOf(moment, stage, told),
    cue && `Until: ${cue}`,
    nth === of && restOf(moment, stage, told),
    ...moment.leftAlone.map((later) => withoutYou(later, moment, told)),
    tip && `Tip: ${tip}`,
  ].filter((line): line is string => Boolean(line))
}

const minuteMs = 60_000

/** The range is that of the stage, so a fold in the middle of it has none. */
function rangeOf({ from: at }: Moment, { startsAt, earliestStart, latestStart }: DayStage, { say }: Told) {
  if (Math.abs(+at - +startsAt) >= minuteMs || +latestStart - +earliestStart < minuteMs) return ""
  const [from, to] = [earliestStart, latestStart]
  const end = dayOf(from, say.zone) === dayOf(to, say.zone) ? say.time(to) : say.dayAndTime(to)
  return `Begin between ${say.dayAndTime(from)} and ${end}, ${say.zoneName()} time.`
}

/** Less than this after the hands are off is no time to go away in. Our own choice. */
const worthSayingMs = 10 * minuteMs

/** How a stage goes on when the hands are off it; nothing to say of an oven, whose event is all of its stage. */
function restOf(moment: Moment, stage: DayStage, told: Told) {
  if (moment.what === "oven" || +stage.endsAt - +(moment.to ?? moment.from) < worthSayingMs) return ""
  return `It goes on until ${when(stage.endsAt, moment, told.say)}${standing(stage, told)}.`
}

const withoutYou = (later: DayStage, moment: Moment, told: Told) =>
  `Then, without you, until ${when(later.endsAt, moment, told.say)}: ${later.stage.name}${standing(later, told)}.`

const when = (at: Date, { from }: Moment, say: Say) =>
  dayOf(at, say.zone) === dayOf(from, say.zone) ? say.time(at) : say.dayAndTime(at)

/** What rises has a place and a temperature of its own; a loaf in the oven or on its rack has neither here. */
function standing({ stage, place, startC, endC }: DayStage, { say, places }: Told) {
  if (stage.kind === "bake" || stage.kind === "cool") return ""
  const [from, to] = [wholeDegrees(startC, say), wholeDegrees(endC, say)]
  return `, in the ${places[place]}, ${from === to ? from : `${from} to ${to}`} inside`
}

const wholeDegrees = (c: number, say: Say) =>
  say.temperature(say.temperatureUnit === "C" ? Math.round(c) : fToC(Math.round(cToF(c))))
