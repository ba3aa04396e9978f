const hourMs = 3_600_000

/** Progress is told in hours at this dough temperature, an ordinary kitchen's. Our own choice. */
export const referenceC = 24

/**
 * Growth rate of the sourdough yeast (K. humilis, formerly C. milleri), 1/h, at a dough temperature in °C; 0 from 36 °C.
 * μ(T) = μopt·[(x/xo)·e^(1 − x/xo)]^b with x = Tmax − T, xo = Tmax − Topt. Throws RangeError outside −5..60 °C.
 *
 * Sources: Topt 27 °C from Gänzle, Ehmann & Hammes 1998, Appl Environ Microbiol 64:2616, abstract; Tmax 36 °C, because
 * Brandt, Hammes & Gänzle 2004 find it inhibited at 35 °C. The form is our own parametrisation; μopt 0.418 and b 3.07 are
 * fitted to rows of Gänzle's table in the rec.food.sourdough FAQ no. 37, which were written down from memory. Only ratios
 * between temperatures carry over from broth to dough.
 */
export function yeastGrowthPerHour(doughC: number): number {
  if (!(doughC >= -5 && doughC <= 60)) throw new RangeError(`a dough is between −5 and 60 °C, not ${doughC} °C`)
  if (doughC >= yeast.maxC) return 0
  const x = (yeast.maxC - doughC) / (yeast.maxC - yeast.bestC)
  return yeast.bestPerHour * (x * Math.exp(1 - x)) ** yeast.steepness
}
const yeast = { bestPerHour: 0.418, bestC: 27, maxC: 36, steepness: 3.07 }

/** How many reference hours pass in one hour at this dough temperature, in °C. Throws like yeastGrowthPerHour. */
export function rate(doughC: number): number {
  return yeastGrowthPerHour(doughC) / yeastGrowthPerHour(referenceC)
}

export type Reading = { at: Date; doughC: number }
/** Between two points the temperature is linear; the stretch is measured when both its ends are. */
export type CurvePoint = { at: Date; doughC: number; known: "measured" | "assumed" }
/** A stage as it was run; `cold` means put in the fridge. */
export type Span = { startsAt: Date; endsAt: Date; surroundingsC?: number; cold?: boolean }

/**
 * Newton's law of cooling, dough in surroundings of another temperature. The 4 h are for a shaped loaf in a home
 * refrigerator: about 10 h down to 4 °C (T. Cucuzza, lecture on the two-factor method, 2024) gives 3.3–4.3 h.
 */
function coolingC(startC: number, surroundingsC: number, hours: number): number {
  return surroundingsC + (startC - surroundingsC) * Math.exp(-hours / fridgeHours)
}
const fridgeHours = 4

/**
 * The dough's temperature, °C, over the readings and stages, in order of time; [] without readings.
 *
 * Linear between readings. Before the first and after the last it holds the nearest value, however far away, and says
 * "assumed". A cold stage with `surroundingsC` and no reading strictly inside it follows Newton's law from the value held
 * at its start; the next reading, or the held end value, takes over after it. Points on a cooling stretch are at most
 * 5 min apart until it is within 0.01 °C of the fridge. Throws RangeError when a stage ends before it starts.
 */
export function doughCurve(readings: Reading[], spans: Span[]): CurvePoint[] {
  if (spans.some(({ startsAt, endsAt }) => endsAt < startsAt)) throw new RangeError("a stage ends before it starts")
  const measured = readings.map((reading): CurvePoint => ({ ...reading, known: "measured" })).sort(byTime)
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
  const fromMs = Math.max(+startsAt, +before.at)
  const pointAt = (ms: number): CurvePoint => ({
    at: new Date(ms),
    doughC: coolingC(before.doughC, surroundingsC, (ms - fromMs) / hourMs),
    known: "assumed",
  })
  const points: CurvePoint[] = []
  for (let ms = fromMs; ms < +endsAt; ms += stepMs) {
    const point = pointAt(ms)
    points.push(point)
    if (Math.abs(point.doughC - surroundingsC) < 0.01) break
  }
  return fromMs < +endsAt ? [...points, pointAt(+endsAt)] : []
}
const stepMs = 5 * 60_000

/** The curve with its end values held over stages that reach beyond it. */
function held(curve: CurvePoint[], spans: Span[]): CurvePoint[] {
  const first = curve[0]!
  const last = curve.at(-1)!
  const from = Math.min(...spans.map(({ startsAt }) => +startsAt))
  const to = Math.max(...spans.map(({ endsAt }) => +endsAt))
  const start: CurvePoint[] = from < +first.at ? [{ ...first, at: new Date(from), known: "assumed" }] : []
  const end: CurvePoint[] = to > +last.at ? [{ ...last, at: new Date(to), known: "assumed" }] : []
  return [...start, ...curve, ...end]
}

/**
 * ∫ rate dt over the curve, in hours at `referenceC`; beyond the curve its end values are held. Each linear piece is
 * integrated by three-point Gauss-Legendre in steps of at most 1 °C: the error is below 0.1 %, mostly far below.
 * Throws RangeError for an empty curve, an end before the start, or a temperature outside −5..60 °C.
 */
export function referenceHours(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  return pieces(curve, startsAt, endsAt).reduce((total, { hours, fromC, toC }) => {
    const steps = Math.max(1, Math.ceil(Math.abs(toC - fromC)))
    const stepC = (toC - fromC) / steps
    const rates = Array.from({ length: steps }, (_, step) => meanRate(fromC + step * stepC, stepC))
    return total + (hours / steps) * rates.reduce((sum, one) => sum + one, 0)
  }, 0)
}

/** Mean rate over a linear change of `stepC`: three-point Gauss-Legendre, Abramowitz & Stegun, table 25.4. */
function meanRate(fromC: number, stepC: number) {
  const offset = Math.sqrt(3 / 5) / 2
  const at = (share: number) => rate(fromC + share * stepC)
  return (5 * at(0.5 - offset) + 8 * at(0.5) + 5 * at(0.5 + offset)) / 18
}

/** The share of the time, 0..1, in which the temperature was assumed; 0 for no time at all. Throws like referenceHours. */
export function assumedShare(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  const parts = pieces(curve, startsAt, endsAt)
  const hoursOf = (some: Piece[]) => some.reduce((total, { hours }) => total + hours, 0)
  const all = hoursOf(parts)
  return all === 0 ? 0 : hoursOf(parts.filter(({ assumed }) => assumed)) / all
}

type Piece = { hours: number; fromC: number; toC: number; assumed: boolean }

/** The linear pieces of the curve between two instants, with held pieces where it does not reach. */
function pieces(curve: CurvePoint[], startsAt: Date, endsAt: Date): Piece[] {
  const [first] = curve
  const last = curve.at(-1)
  if (!first || !last) throw new RangeError("the curve is empty")
  if (!(endsAt >= startsAt)) throw new RangeError("the end lies before the start")
  const before: CurvePoint = { ...first, at: startsAt < first.at ? startsAt : first.at, known: "assumed" }
  const after: CurvePoint = { ...last, at: endsAt > last.at ? endsAt : last.at, known: "assumed" }
  const points = [before, ...curve, after]
  return points.slice(1).flatMap((to, index) => {
    const from = points[index]!
    const fromMs = Math.max(+from.at, +startsAt)
    const toMs = Math.min(+to.at, +endsAt)
    if (toMs <= fromMs) return []
    const assumed = from.known === "assumed" || to.known === "assumed"
    return [
      { hours: (toMs - fromMs) / hourMs, fromC: between(from, to, fromMs), toC: between(from, to, toMs), assumed },
    ]
  })
}

function between(from: CurvePoint, to: CurvePoint, ms: number) {
  return from.doughC + ((to.doughC - from.doughC) * (ms - +from.at)) / (+to.at - +from.at)
}
