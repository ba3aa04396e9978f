import type { Say } from "../accounts/say.ts"
import type { CauseKey, CauseShare, Causes, Differed } from "../dough/causes/bake-causes.ts"

type Told = Extract<Causes, { enough: true }>

/** Minutes within which a bake is on plan as far as anybody can say, and below which a share is not worth a word. Our own judgement. */
export const leastMin = 5

/** What a bake's lead came from, the largest share first, each in a sentence; then what could not be known. */
export function causesIn(causes: Causes, say: Say): string[] {
  if (!causes.enough) return [causes.why]
  const told = causes.shares.filter(({ min }) => Math.abs(min) >= leastMin)
  return [
    `${capital(leadIn(causes.leadMin, say))}.`,
    ...told.map((share) => causeIn(share, causes, say)),
    ...leftIn(causes),
  ]
}

/** "41 min further on than planned", "1 h 10 min behind plan", "on plan". */
export function leadIn(min: number, say: Say): string {
  if (Math.abs(min) < leastMin) return "on plan"
  return `${say.minutes(Math.abs(min))} ${min > 0 ? "further on than planned" : "behind plan"}`
}

/** "28 min of the lead came from a dough 2.4 °C warmer (15 to 41 min)." */
export function causeIn(share: CauseShare, { leadMin, differed }: Told, say: Say): string {
  const [minutes, what] = [say.minutes(Math.abs(share.min)), whatDiffered(share.key, differed, say)]
  const sentence =
    Math.abs(leadMin) >= leastMin && share.min * leadMin > 0
      ? `${minutes} of the ${leadMin > 0 ? "lead" : "delay"} came from ${what}`
      : `${capital(what)} ${share.min > 0 ? "brought it on" : "held it back"} by ${minutes}`
  return `${sentence} (${rangeIn(share, say)}).`
}

/** The 80 % range of a share, counted the way its sentence goes: "15 min to 41 min", "5 min the other way to 20 min". */
function rangeIn({ min, lowMin, highMin }: CauseShare, say: Say): string {
  const ends = min < 0 ? [-highMin, -lowMin] : [lowMin, highMin]
  const [low, high] = ends.map((end) => {
    const whole = Math.round(end)
    return whole < 0 ? `${say.minutes(-whole)} the other way` : say.minutes(whole)
  })
  return low === high ? low! : `${low} to ${high}`
}

/** Causes as a page names them. */
export const causeNames: Record<CauseKey, string> = {
  time: "time",
  temperature: "temperature",
  leaven: "how much leaven",
  activity: "how lively the leaven was",
}

function whatDiffered(key: CauseKey, { min, c, leaven, activity }: Differed, say: Say): string {
  if (key === "time") return timeIn(min, say)
  if (key === "temperature")
    return c === undefined || Math.abs(c) < 0.05
      ? "the dough’s temperature"
      : `a dough ${degrees(Math.abs(c), say)} ${c > 0 ? "warmer" : "colder"}`
  if (key === "leaven") return leavenIn(leaven, say)
  const percent = Math.round(Math.abs((activity ?? 1) - 1) * 100)
  if (percent === 0) return "how lively its leaven was"
  return `a leaven ${percent} % ${(activity ?? 1) > 1 ? "livelier" : "less lively"} than planned`
}

function timeIn(min: number, say: Say) {
  if (Math.abs(min) < 1) return "how its time was shared out"
  return `${say.minutes(Math.abs(min))} ${min > 0 ? "more" : "less"} before the oven`
}

function leavenIn(leaven: Differed["leaven"], say: Say) {
  if (!leaven) return "its leaven"
  const { planned, actual } = leaven
  if (planned.culture !== actual.culture) return `${nameOf(actual.culture)} in place of ${nameOf(planned.culture)}`
  const more = actual.share > planned.share ? "more" : "less"
  return `${more} ${nameOf(actual.culture)}, ${say.percent(actual.share)} of the flour in place of ${say.percent(planned.share)}`
}
const nameOf = (culture: string) => (culture === "sourdough" ? "levain" : "yeast")

/** "Temperature is taken as planned: nobody measured dough or room." One sentence for all that have the same reason. */
function leftIn({ leftAtPlan }: Told): string[] {
  const whys = [...new Set(leftAtPlan.map(({ why }) => why))]
  return whys.map((why) => {
    const names = leftAtPlan.filter((left) => left.why === why).map(({ key }) => causeNames[key])
    return `${capital(names.join(" and "))} ${names.length > 1 ? "are" : "is"} taken as planned: ${lower(why)}`
  })
}

/** A difference of temperature: °F have no 32 to add. */
export function degrees(c: number, { temperatureUnit }: Say): string {
  return `${(temperatureUnit === "C" ? c : c * 1.8).toFixed(1)} °${temperatureUnit}`
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
const lower = (text: string) => text.charAt(0).toLowerCase() + text.slice(1)
