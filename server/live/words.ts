import type { Say } from "../accounts/say.ts"
import { nameOf, shownReading } from "../bakes/reading-words.ts"
import type { Pace, Place, Quiet } from "./benches.ts"
import type { Row } from "./queries.ts"

/** A row of the bake day's page as one person reads it: in their units, and by their clock. */
export function benchWords({ name, nth, bench, heardAt, last, asks }: Row, say: Say, now: Date) {
  const at = (instant: Date) => (say.day(instant) === say.day(now) ? say.time(instant) : say.dayAndTime(instant))
  const over = isOver(bench.place)
  const reading = last && !over && shownReading(last, say)
  return {
    over,
    name: nth > 1 ? `${name}, bake ${nth}` : name,
    ...placeWords(bench.place, at),
    pace: bench.pace ? paceWords(bench.pace, say) : "",
    offPlan: bench.pace !== null && bench.pace.is !== "on plan",
    reading: last && reading ? { name: nameOf(last), ...reading, at: at(last.takenAt) } : null,
    heard: at(heardAt),
    quiet: bench.quiet ? quietWords(bench.quiet, at, say) : "",
    asks: asks
      ? asks.count === 1
        ? `Waits for an answer since ${at(asks.since)}`
        : `Waits for ${asks.count} answers, since ${at(asks.since)}`
      : "",
  }
}
const isOver = (place: Place) => place.in === "finished" || place.in === "given up"
type At = (instant: Date) => string

function placeWords(place: Place, at: At): { place: string; detail: string } {
  if (place.in === "stage") {
    const { stage, since, pausedSince, plan } = place
    const paused = pausedSince ? `, paused at ${at(pausedSince)}` : ""
    return { place: stage.name, detail: `since ${at(since)}${paused}; planned to end ${at(plan.endsAt)}` }
  }
  if (place.in === "between") {
    const { stage, since, next } = place
    return {
      place: `${next.stage.name} is next`,
      detail: `planned from ${at(next.startsAt)}; ${stage.name} ended ${at(since)}`,
    }
  }
  if (place.in === "beginning")
    return { place: "Not begun", detail: place.next ? `planned from ${at(place.next.startsAt)}` : "" }
  const words = { done: "All stages done", finished: "Finished", "given up": "Given up" }
  return { place: words[place.in], detail: at(place.since) }
}

const paceWords = (pace: Pace, say: Say) =>
  pace.is === "on plan" ? "on plan" : `${say.minutes(pace.minutes)} ${pace.is === "ahead" ? "ahead of" : "behind"} plan`

/** Since when, and why that is long. */
function quietWords(quiet: Quiet, at: At, say: Say) {
  const { stage, since } = quiet
  const reason = () => {
    if (quiet.why === "short") return `and ${stage.name} takes ${say.minutes(stage.highMin)} at most`
    if (quiet.why === "long") return `while ${stage.name} goes on`
    return `and ${stage.name} was to ${quiet.why === "slept" ? "end by" : "begin at"} ${at(quiet.by)}`
  }
  return `nothing since ${at(since)}, ${reason()}`
}

/** How many are at it: "7 baking, 2 of them quiet, 1 asks; 3 finished". The staff read all of it. */
export function summary(rows: Row[], staff: boolean) {
  const open = rows.filter(({ bench }) => !isOver(bench.place))
  const [quiet, asking] = [open.filter(({ bench }) => bench.quiet), rows.filter(({ asks }) => asks)]
  const finished = rows.filter(({ bench }) => bench.place.in === "finished")
  const baking = [
    `${open.length} baking`,
    ...(quiet.length ? [`${quiet.length} quiet`] : []),
    ...(staff && asking.length ? [`${asking.length} waiting for an answer`] : []),
  ]
  return [baking.join(", "), ...(finished.length ? [`${finished.length} finished`] : [])].join("; ")
}
