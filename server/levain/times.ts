import type { Say } from "../accounts/say.ts"

/** A moment in words, to five minutes unless somebody typed it. */
export function moment(at: Date, say: Say, typedAt: Date[] = []): string {
  const typed = typedAt.find((one) => Math.abs(+one - +at) < 30_000)
  return say.dayAndTime(typed ?? nearest(at, 5))
}

/** From when to when, to ten minutes: "06:10–09:20", with the days where they differ. */
export function spanOf(from: Date, to: Date, say: Say): string {
  const [start, end] = [nearest(from, 10), nearest(to, 10)]
  return say.day(start) === say.day(end)
    ? `${say.time(start)}–${say.time(end)}`
    : `${say.dayAndTime(start)} to ${say.dayAndTime(end)}`
}

const nearest = (at: Date, minutes: number) => new Date(Math.round(+at / (minutes * 60_000)) * minutes * 60_000)

/** That the clocks change between two instants, so that another time passes than they show; null where they do not. */
export function clockChange(from: Date, to: Date, say: Say): string | null {
  const shown = Date.parse(`${say.field(to)}Z`) - Date.parse(`${say.field(from)}Z`)
  const minutes = Math.round((+to - +from) / 60_000)
  const byClock = Math.round(shown / 60_000)
  return Math.abs(minutes - byClock) < 2
    ? null
    : `The clocks change in between: ${say.minutes(minutes)} pass, not ${say.minutes(byClock)}.`
}
