import { refrigeratedLoafTauHours, towardSurroundingsC } from "../heat/newton.ts"

export const hourMs = 3_600_000

/** `known`, when left out: measured. */
export type Reading = { at: Date; doughC: number; known?: "measured" | "assumed" }
/** Between two points the temperature is linear; the stretch is measured when both its ends are. */
export type CurvePoint = { at: Date; doughC: number; known: "measured" | "assumed" }
/** A stage as it was run; `cold` means put in the fridge. */
export type Span = { startsAt: Date; endsAt: Date; surroundingsC?: number; cold?: boolean }

/**
 * The dough's temperature, °C, over the readings and stages, in order of time; [] without readings.
 *
 * Linear between readings. Before the first and after the last it holds the nearest value, however far away, and says
 * "assumed". A cold stage with `surroundingsC` and no reading strictly inside it follows Newton's law from the value
 * held at its start; the next reading, or the held end value, takes over after it. Throws RangeError when a stage ends
 * before it starts.
 */
export function doughCurve(readings: Reading[], spans: Span[]): CurvePoint[] {
  if (spans.some(({ startsAt, endsAt }) => endsAt < startsAt)) throw new RangeError("a stage ends before it starts")
  const measured = readings.map((reading): CurvePoint => ({ known: "measured", ...reading })).sort(byTime)
  if (!measured[0]) return []

  const fridges = spans
    .filter(isFridge)
    .filter((span) => !readings.some(({ at }) => at > span.startsAt && at < span.endsAt))
    .sort((a, b) => +a.startsAt - +b.startsAt)
  const curve: CurvePoint[] = []
  let next = 0
  for (const fridge of fridges) {
    while (next < measured.length && measured[next]!.at <= fridge.startsAt) curve.push(measured[next++]!)
    curve.push(...cooling(fridge, curve.at(-1) ?? { ...measured[0], at: fridge.startsAt }))
  }
  curve.push(...measured.slice(next))
  return held(curve, spans)
}

const byTime = (a: { at: Date }, b: { at: Date }) => +a.at - +b.at
const isFridge = (span: Span): span is Fridge => Boolean(span.cold) && span.surroundingsC !== undefined
type Fridge = Span & { surroundingsC: number }

/** Points from the fridge's start, or from where an overlapping one left off, to its end. */
function cooling({ startsAt, endsAt, surroundingsC }: Fridge, before: { at: Date; doughC: number }): CurvePoint[] {
  const at = startsAt > before.at ? startsAt : before.at
  return movingToward({ at, doughC: before.doughC }, { surroundingsC, tauHours: refrigeratedLoafTauHours }, endsAt)
}

/** Where a dough stands: the temperature around it, °C, and its time constant there (see heat/newton.ts). */
export type Surroundings = { surroundingsC: number; tauHours: number }

/**
 * A dough's temperature from one reading on by Newton's law, as assumed points; [] when the end does not lie after it.
 * Points lie as far apart as leaves the straight lines between them within 0.005 °C, and end, but for the last one,
 * once the dough is within 0.01 °C of its surroundings. Throws like towardSurroundingsC.
 */
export function movingToward(from: Reading, { surroundingsC, tauHours }: Surroundings, endsAt: Date): CurvePoint[] {
  const pointAt = (ms: number): CurvePoint => ({
    at: new Date(ms),
    doughC: towardSurroundingsC({ startC: from.doughC, surroundingsC, tauHours, hours: (ms - +from.at) / hourMs }),
    known: "assumed",
  })
  const points: CurvePoint[] = []
  for (let ms = +from.at; ms < +endsAt; ) {
    const point = pointAt(ms)
    points.push(point)
    const offC = Math.abs(point.doughC - surroundingsC)
    if (offC < 0.01) break
    // A chord strays by step²/8 times the bend, and the bend is off/τ².
    ms += Math.round(tauHours * Math.sqrt((8 * strayC) / offC) * hourMs)
  }
  return from.at < endsAt ? [...points, pointAt(+endsAt)] : []
}
const strayC = 0.005

/** The curve with its end values held over stages that reach beyond it. */
function held(curve: CurvePoint[], spans: Span[]): CurvePoint[] {
  if (!spans.length) return curve
  const startsAt = new Date(Math.min(...spans.map((span) => +span.startsAt)))
  return heldOver(curve, startsAt, new Date(Math.max(...spans.map(({ endsAt }) => +endsAt))))
}

/** The curve with its end values held, as assumed, as far as these instants. Throws RangeError for an empty curve. */
export function heldOver(curve: CurvePoint[], startsAt: Date, endsAt: Date): CurvePoint[] {
  const [first, last] = [curve[0], curve.at(-1)]
  if (!first || !last) throw new RangeError("the curve is empty")
  const start: CurvePoint[] = startsAt < first.at ? [{ ...first, at: startsAt, known: "assumed" }] : []
  const end: CurvePoint[] = endsAt > last.at ? [{ ...last, at: endsAt, known: "assumed" }] : []
  return [...start, ...curve, ...end]
}

/** A straight piece of a dough's temperature curve. */
export type Stretch = { startsAt: Date; endsAt: Date; fromC: number; toC: number; assumed: boolean }

/**
 * The straight pieces of the curve from one instant to another, cut at both; beyond the curve its end values are held,
 * as assumed. [] for no time at all. Throws RangeError for an empty curve or an end before the start.
 */
export function stretchesOf(curve: CurvePoint[], startsAt: Date, endsAt: Date): Stretch[] {
  if (!(endsAt >= startsAt)) throw new RangeError("the end lies before the start")
  const points = heldOver(curve, startsAt, endsAt)
  return points.slice(1).flatMap((to, index) => {
    const from = points[index]!
    const [fromMs, toMs] = [Math.max(+from.at, +startsAt), Math.min(+to.at, +endsAt)]
    if (toMs <= fromMs) return []
    const at = (ms: number) => between(from.doughC, to.doughC, (ms - +from.at) / (+to.at - +from.at))
    const assumed = from.known === "assumed" || to.known === "assumed"
    return [
      {
        startsAt: new Date(fromMs),
        endsAt: new Date(toMs),
        fromC: at(fromMs),
        toC: at(toMs),
        assumed,
      },
    ]
  })
}

/** The temperature a share of the way from one to another, 0..1; never outside the two. */
export function between(fromC: number, toC: number, share: number): number {
  const c = fromC + (toC - fromC) * share
  return fromC < toC ? Math.min(Math.max(c, fromC), toC) : Math.max(Math.min(c, fromC), toC)
}

const hoursOf = ({ startsAt, endsAt }: Stretch) => (+endsAt - +startsAt) / hourMs
const hoursOfAll = (stretches: Stretch[]) => stretches.reduce((total, one) => total + hoursOf(one), 0)

/** Mean dough temperature over the time between two instants, °C; undefined for no time. Throws like stretchesOf. */
export function meanDoughC(curve: CurvePoint[], startsAt: Date, endsAt: Date): number | undefined {
  const stretches = stretchesOf(curve, startsAt, endsAt)
  const weighted = stretches.reduce((sum, one) => sum + ((one.fromC + one.toC) / 2) * hoursOf(one), 0)
  return stretches.length === 0 ? undefined : weighted / hoursOfAll(stretches)
}

/** The share of the time, 0..1, in which the temperature was assumed; 0 for no time at all. Throws like stretchesOf. */
export function assumedShare(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  const stretches = stretchesOf(curve, startsAt, endsAt)
  const all = hoursOfAll(stretches)
  return all === 0 ? 0 : hoursOfAll(stretches.filter(({ assumed }) => assumed)) / all
}
