import { refrigeratedLoafTauHours } from "../heat/newton.ts"
import { type Clock, startClock } from "./clock.ts"
import { type Culture, rate } from "./growth.ts"
import { type Piece, piecesOf } from "./reference-hours.ts"
import { between, type CurvePoint, hourMs } from "./temperature-curve.ts"

/**
 * One way in which a dough may be warmer or colder than its curve says: by `sdC`, one standard deviation, °C, times a
 * share that changes with time, straight between the points of its course and held outside them. Doubts are
 * independent of each other.
 */
export type Doubt = { sdC: number; course: { at: Date; share: number }[] }

/** A temperature somebody gave, and how far it may be off, one standard deviation, °C. */
export type GivenC = { at: Date; sdC: number }

/** A kitchen thermometer, and where in the dough it was put, one standard deviation, °C. Our own judgement. */
export const measuredSdC = 0.5
/** A dough that nobody measured, against the temperature that its plan or its baker assumes. Our own judgement. */
export const assumedSdC = 2
/** A measured dough, freshly mixed, against the place where it will stand. Our own judgement. */
const mixedSdC = 2
/**
 * How long a bowl of dough takes to its surroundings, a time constant in hours: as a shaped loaf in a refrigerator, see
 * heat/newton.ts, the only source there is for a dough of a loaf or two. That a bowl is as slow is our own judgement.
 */
export const settlingHours = refrigeratedLoafTauHours
// Errors of readings average out: more of them than this are taken in groups, which costs little and loses less.
const mostGroups = 8

/**
 * What is doubtful about a dough's temperature curve. Its measured points, or those that are `given`, each have their own
 * error, which the lines between them share and what is held or reckoned from them inherits. Before the first and after
 * the last of them the dough was on its way to its surroundings: the farther, the sooner after the start it was measured.
 * A curve without such a point is off as a whole.
 */
export function doubtsOf(curve: CurvePoint[], startsAt: Date, given = measuredIn(curve)): Doubt[] {
  const ordered = given.toSorted((a, b) => +a.at - +b.at)
  const [first, last] = [ordered[0], ordered.at(-1)]
  if (!first || !last) return [asAWhole(startsAt, assumedSdC)]
  return [...errorsOf(ordered), ...settlingOf(first.at, last.at, startsAt)]
}
const measuredIn = (curve: CurvePoint[]): GivenC[] =>
  curve.filter(({ known }) => known === "measured").map(({ at }) => ({ at, sdC: measuredSdC }))

/** The whole curve is off by the same, as where a room's temperature stands in for the dough's. */
export const asAWhole = (at: Date, sdC: number): Doubt => ({ sdC, course: [{ at, share: 1 }] })

/** Each group of temperatures, in order of time, is off by its own error and passes it on along the lines to its neighbours. */
export function errorsOf(given: GivenC[]): Doubt[] {
  const times = [...new Set(given.map(({ at }) => +at))]
  const size = Math.ceil(times.length / mostGroups)
  const groups = Array.from({ length: Math.ceil(times.length / size) }, (_, i) => times.slice(i * size, (i + 1) * size))
  return groups.map((group, index) => {
    const ends = [groups[index - 1]?.at(-1), groups[index + 1]?.[0]]
    const [before, after] = ends.map((ms) => (ms === undefined ? [] : [{ at: new Date(ms), share: 0 }]))
    const own = group.map((ms) => ({ at: new Date(ms), share: 1 }))
    const weights = given.filter(({ at }) => group.includes(+at)).map(({ sdC }) => sdC ** -2)
    const sdC = weights.reduce((sum, weight) => sum + weight, 0) ** -0.5
    return { sdC, course: [...before!, ...own, ...after!] }
  })
}

/** By Newton's law a difference of 1 at the start is e^(−t/τ) later, and so much of it is gone in between. */
function settlingOf(firstAt: Date, lastAt: Date, startsAt: Date): Doubt[] {
  const left = (at: Date) => Math.min(1, Math.exp(-(+at - +startsAt) / (settlingHours * hourMs)))
  const later = (at: Date, hours: number) => new Date(+at + hours * hourMs)
  const before = [
    { at: startsAt, share: 1 },
    { at: firstAt, share: 0 },
  ]
  const after = [0, 0.5, 1, 2, 4].map((taus) => ({
    at: later(lastAt, taus * settlingHours),
    share: 1 - Math.exp(-taus),
  }))
  return [
    ...(firstAt > startsAt ? [{ sdC: mixedSdC * (1 - left(firstAt)), course: before }] : []),
    { sdC: mixedSdC * left(lastAt), course: after },
  ]
}

/** A dough's clocks, for whatever its doubts come to. */
export type DoubtedClock = {
  /** The clock with each doubt so many standard deviations off, none for those that are not given. */
  at(doubts: number[]): Clock
  /** The reference hours at an instant that one standard deviation of each doubt adds, for a small one. */
  hoursBy(at: Date): number[]
}

/**
 * Clocks along a curve that is not surely known, as startClock, from one instant to another. A dough made colder or
 * warmer by doubt stays within what a dough can be. Throws like startClock.
 */
export function startClocks(
  curve: CurvePoint[],
  doubts: Doubt[],
  { startsAt, endsAt, culture }: { startsAt: Date; endsAt: Date; culture: Culture },
): DoubtedClock {
  const courses = doubts.map(inMs)
  const points = withInstants(
    curve,
    courses.flatMap(({ ms }) => ms),
  )
  const offC = courses.map((course) => points.map(({ at }) => offAt(course, +at)))
  const at = (sds: number[]) => {
    const moved = points.map(({ at, known, doughC }, i) => {
      const off = offC.reduce((c, one, k) => c + (sds[k] ?? 0) * one[i]!, 0)
      return { at, known, doughC: asDough(doughC + off) }
    })
    return startClock(moved, startsAt, endsAt, culture)
  }
  const asRead = at([])
  return {
    at: (sds) => (sds.some(Boolean) ? at(sds) : asRead),
    hoursBy: sensitivity(piecesOf(points, startsAt, endsAt), courses, culture),
  }
}

/** How reference hours grow with each doubt: the integral of what a degree adds to the rate, by Simpson's rule. */
function sensitivity(pieces: Piece[], courses: Course[], culture: Culture): (at: Date) => number[] {
  const inPiece = ({ startMs, endMs, fromC, toC }: Piece, untilMs: number) => {
    const nodes = [1, 4, 1].map((share, i) => {
      const ms = startMs + ((untilMs - startMs) * i) / 2
      const perHour = perDegree(between(fromC, toC, (ms - startMs) / (endMs - startMs)), culture)
      return { ms, weight: (perHour * share * (untilMs - startMs)) / 6 / hourMs }
    })
    return courses.map((course) => nodes.reduce((sum, { ms, weight }) => sum + weight * offAt(course, ms), 0))
  }
  const whole = pieces.map((piece) => inPiece(piece, piece.endMs))
  return (at) => {
    const sums = courses.map(() => 0)
    for (const [i, piece] of pieces.entries()) {
      if (piece.startMs >= +at) break
      const added = piece.endMs <= +at ? whole[i]! : inPiece(piece, +at)
      for (const [k, hours] of added.entries()) sums[k]! += hours
    }
    return sums
  }
}

/** What a degree adds to the rate. */
function perDegree(doughC: number, culture: Culture): number {
  const [colder, warmer] = [asDough(doughC - stepC), asDough(doughC + stepC)]
  return (rate(warmer, culture) - rate(colder, culture)) / (warmer - colder)
}
const stepC = 0.25

// The limits of growth.ts.
const asDough = (c: number) => Math.min(60, Math.max(-5, c))

/** The curve with points of its own at these instants too, as far as it reaches. */
function withInstants(curve: CurvePoint[], instants: number[]): CurvePoint[] {
  const wanted = [...new Set(instants)].sort((a, b) => a - b)
  let next = 0
  return curve.flatMap((to, index) => {
    const [from, toMs] = [curve[index - 1], +to.at]
    const added: CurvePoint[] = []
    for (; next < wanted.length && wanted[next]! <= toMs; next++) {
      const ms = wanted[next]!
      if (!from || ms <= +from.at || ms === toMs) continue
      const doughC = between(from.doughC, to.doughC, (ms - +from.at) / (toMs - +from.at))
      added.push({ at: new Date(ms), doughC, known: "assumed" })
    }
    return [...added, to]
  })
}

/** A doubt in plain numbers: how many °C it is off at which instants, for one standard deviation. */
type Course = { ms: number[]; c: number[] }
const inMs = ({ sdC, course }: Doubt): Course => ({
  ms: course.map(({ at }) => +at),
  c: course.map(({ share }) => sdC * share),
})

function offAt({ ms, c }: Course, at: number): number {
  let next = 0
  while (next < ms.length && ms[next]! < at) next++
  if (next === 0 || next === ms.length) return c[Math.min(next, ms.length - 1)]!
  const [from, to] = [ms[next - 1]!, ms[next]!]
  return c[next - 1]! + ((c[next]! - c[next - 1]!) * (at - from)) / (to - from)
}
