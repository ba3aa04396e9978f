import type { Likely, Prediction } from "../dough/fermentation/prediction.ts"

type Moment = { at: Date; rise: Likely }
/** The course of a rise: as it was up to now, and as it is likely to go on. `read` are the rises that were read. */
export type Course = {
  from: Date
  now: Date
  until: Date
  targetRise: number
  moments: Moment[]
  read: { at: Date; rise: number; sd: number }[]
}
export type XY = [x: number, y: number]
/** A course as a drawing, `width` by `height`: so far, ahead, the range it opens into, and what was read. */
export type Fan = {
  width: number
  height: number
  soFar: XY[]
  ahead: XY[]
  range: XY[]
  read: { x: number; y: number; low: number; high: number }[]
  now: XY
  targetY: number
  groundY: number
  ticks: { x: number; at: Date }[]
}

/** The course of a dough from the start of its rise to the end of the range of its time, or some hours on. */
export function courseOf(
  prediction: Prediction,
  { startsAt, now, targetRise }: { startsAt: Date; now: Date; targetRise: number },
  read: Course["read"],
): Course {
  const ready = prediction.kind === "ready" ? (prediction.latest ?? prediction.readyAt) : now
  const pastMs = Math.max(+now - +startsAt, 3_600_000)
  const wantedMs = Math.max(+ready, +now + pastMs / 5)
  // what lies too far ahead would squeeze what has been read
  const until = new Date(Math.min(wantedMs, +now + Math.max(2 * pastMs, 6 * 3_600_000)))
  const instants = [...spread(startsAt, now), ...spread(now, until).slice(1)]
  const moments = instants.map((at) => ({ at, rise: prediction.riseAt(at) }))
  return { from: startsAt, now, until, targetRise, moments, read }
}
const steps = 16
const spread = (from: Date, to: Date) =>
  Array.from({ length: steps + 1 }, (_, step) => new Date(+from + ((+to - +from) * step) / steps))

const [width, height] = [360, 190]
const edge = { left: 8, right: 352, top: 26, ground: 160 }

/** Draws a course: time to the right, rise upward. `hourMs` are the marks of the time axis, chosen by the reader's clock. */
export function drawFan(course: Course, tickEvery: Date[]): Fan {
  const { from, now, until, targetRise, moments, read } = course
  const most = Math.max(
    targetRise * 1.25,
    ...read.map(({ rise }) => rise * 1.1),
    ...moments.map(({ rise }) => Math.min(rise.high, targetRise * 1.6)),
  )
  const x = (at: Date) => edge.left + ((+at - +from) / (+until - +from)) * (edge.right - edge.left)
  const y = (rise: number) => edge.ground - (Math.min(Math.max(rise, 0), most) / most) * (edge.ground - edge.top)
  const line = (of: Moment[]): XY[] => of.map(({ at, rise }) => [x(at), y(rise.value)])
  const past = moments.filter(({ at }) => at <= now)
  const ahead = moments.filter(({ at }) => at >= now)
  const top = ahead.map(({ at, rise }): XY => [x(at), y(rise.high)])
  const bottom = ahead.map(({ at, rise }): XY => [x(at), y(rise.low)])
  return {
    ...{ width, height, soFar: line(past), ahead: line(ahead), range: [...top, ...bottom.reverse()] },
    read: read.map(({ at, rise, sd }) => ({ x: x(at), y: y(rise), low: y(rise - sd), high: y(rise + sd) })),
    now: line(past).at(-1)!,
    targetY: y(targetRise),
    groundY: edge.ground,
    ticks: tickEvery.filter((at) => at >= from && at <= until).map((at) => ({ x: x(at), at })),
  }
}
