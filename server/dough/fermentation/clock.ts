import type { Culture } from "./growth.ts"
import { hoursInto, type Piece, piecesOf } from "./reference-hours.ts"
import type { CurvePoint } from "./temperature-curve.ts"

/** Reference hours and instants of one dough, told from each other. */
export type Clock = {
  /** Reference hours since the start; instants outside the clock's time count as its ends. */
  hoursAt(at: Date): number
  /** When so many have passed, to the second; undefined when they do not before the end. */
  reachedAt(hours: number): Date | undefined
}

/** A clock from one instant to another along a temperature curve. Throws like referenceHours. */
export function startClock(curve: CurvePoint[], startsAt: Date, endsAt: Date, culture: Culture): Clock {
  let total = 0
  const stretches = piecesOf(curve, startsAt, endsAt).map((piece): Stretch => {
    const startHours = total
    total += hoursInto(piece, piece.endMs, culture)
    return { piece, startHours, endHours: total }
  })

  function hoursAt(at: Date) {
    const ms = +at
    const stretch = firstOf(stretches, ({ piece }) => ms <= piece.endMs)
    if (!stretch || ms === stretch.piece.endMs) return stretch?.endHours ?? total
    return stretch.startHours + hoursInto(stretch.piece, Math.max(ms, stretch.piece.startMs), culture)
  }

  function reachedAt(hours: number) {
    if (hours <= 0) return startsAt
    const stretch = firstOf(stretches, ({ endHours }) => hours <= endHours)
    return stretch && new Date(Math.round(msTo(stretch, hours - stretch.startHours, culture)))
  }

  return { hoursAt, reachedAt }
}

type Stretch = { piece: Piece; startHours: number; endHours: number }

/** By halving until the rate no longer matters, then in proportion. */
function msTo({ piece, startHours, endHours }: Stretch, hours: number, culture: Culture) {
  let [before, hoursBefore] = [piece.startMs, 0]
  let [after, hoursAfter] = [piece.endMs, endHours - startHours]
  while (after - before > aMinuteMs && piece.fromC !== piece.toC) {
    const middle = (before + after) / 2
    const hoursMiddle = hoursInto(piece, middle, culture)
    if (hoursMiddle < hours) [before, hoursBefore] = [middle, hoursMiddle]
    else [after, hoursAfter] = [middle, hoursMiddle]
  }
  return before + ((after - before) * (hours - hoursBefore)) / (hoursAfter - hoursBefore)
}
const aMinuteMs = 60_000

/** The first of which something is true that stays true for all after it. */
function firstOf<One>(all: One[], isTrue: (one: One) => boolean): One | undefined {
  let [low, high] = [0, all.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (isTrue(all[middle]!)) high = middle
    else low = middle + 1
  }
  return all[low]
}
