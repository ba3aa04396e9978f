import type { Say } from "../accounts/say.ts"
import { degrees } from "../table/cause-words.ts"
import type { Way } from "./course.ts"
import type { Laid } from "./laid.ts"
import type { Comparison, Dial, Thing } from "./thing.ts"

/** What fermentation is called among the explanations; anything else is not mended by time or warmth. */
const ofFermentation = ["underproofed", "overproofed", "nothing wrong"]

/** The one thing to try next, and why, in sentences. */
export function nextIn(
  { things, between }: Comparison,
  { row }: Laid,
  way: Way,
  say: Say,
): { what: string; why: string } {
  const { verdict } = row
  if (row.state === "running" || row.state === "nothing")
    return { what: "Finish this bake first.", why: "What it did is seen at the oven and in the crumb." }
  if (verdict.call === "not enough to say")
    return {
      what: verdict.wouldHelp,
      why: "There is not enough to say how this bake came out, so any change would be a guess.",
    }
  const [first] = verdict.suspects
  if (first && !ofFermentation.includes(first.key))
    return {
      what: first.check,
      why: `${first.name} explains this bread best, and that is not mended by time or warmth.`,
    }
  if (verdict.call === "well" || Math.abs(verdict.mean) < closeEnough) return keep(things)
  const offH = (row.fermented?.hours ?? row.plannedHours ?? 0) * (Math.exp(-verdict.mean) - 1)
  const far = verdict.mean > 0 ? "further on than intended" : "less far than intended"
  const wrong =
    "hours" in between
      ? things.find(({ hours = 0, dial }) => dial && hours * verdict.mean > 0 && Math.abs(hours) >= leastHours)
      : undefined
  if (wrong?.dial)
    return {
      what: `Change only ${called(wrong)}: ${backBy(wrong.dial, Math.min(1, Math.abs(offH / wrong.hours!)), say)}. Keep the rest as this time.`,
      why: `This bread was ${far}, and of what changed, this brought it furthest that way.`,
    }
  const pace = ("course" in way && way.course.stretches.bulk?.pace) || 1
  const min = Math.max(5, Math.round(Math.abs((offH / pace) * 60) / 5) * 5)
  return {
    what: `Change only the bulk: end it about ${say.minutes(min)} ${verdict.mean > 0 ? "earlier" : "later"}. Keep the rest as this time.`,
    why: `This bread was ${far}, and nothing that was changed since the last one brought it there.`,
  }
}
/** Log progress this near to what was intended needs no mending. Our own judgement. */
const closeEnough = 0.1
/** What moved a dough by less is not worth turning back. Our own judgement. */
const leastHours = 0.1

function keep(things: Thing[]) {
  const [largest] = things
  if (!largest)
    return {
      what: "Bake it once more just so.",
      why: "It came out as intended; good twice in the same way needs no cause.",
    }
  if (things.length === 1)
    return {
      what: `Keep ${called(largest)} at ${largest.later}, and bake it once more just so.`,
      why: "It came out as intended after one change. If it does again, that was it.",
    }
  return {
    what: `Bake it once more just so, or take back only ${called(largest)}, to ${largest.earlier}.`,
    why: "It came out as intended, and which of the changes did it is not known yet: only one at a time tells.",
  }
}

/** How far to turn it back: all of the way, or the part that the verdict asks for. */
function backBy(dial: Dial, part: number, say: Say) {
  const back = Math.abs(dial.moved) * part
  const less = dial.moved > 0
  switch (dial.of) {
    case "min":
      return `${say.minutes(Math.max(5, Math.round(back / 5) * 5))} ${less ? "shorter" : "longer"}`
    case "c":
      return `a dough ${degrees(back, say)} ${less ? "cooler" : "warmer"}`
    case "share":
      return `${less ? "less" : "more"} by ${say.percent(back)} of the flour`
  }
}

const called = ({ called, name }: Thing) => called ?? name.charAt(0).toLowerCase() + name.slice(1)
