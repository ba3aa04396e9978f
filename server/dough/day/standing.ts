import { startClock } from "../fermentation/clock.ts"
import { type Culture, rate } from "../fermentation/growth.ts"
import { hourMs, movingToward } from "../fermentation/temperature-curve.ts"
import { settlingHours } from "../fermentation/temperature-doubt.ts"
import { towardSurroundingsC } from "../heat/newton.ts"

/** How a dough fares that stands in one place, from the temperature, °C, that it comes there with. */
export type Standing = {
  /** Reference hours of so many minutes. */
  hoursIn(startC: number, minutes: number): number
  /** The minutes until so many reference hours have passed; Infinity when they do not within four days. */
  minutesTo(startC: number, hours: number): number
}

/** Any place that a dough of these temperatures, °C, may come to. */
export type Kitchen = (placeC: number, culture: Culture) => Standing

/**
 * Places for doughs between two temperatures, each reckoned once however often it is asked for: every dough that cools
 * toward a place goes down the same curve, by Newton's law, and only steps onto it at its own temperature. Throws RangeError
 * outside −5..60 °C.
 */
export function kitchenFor(temperatures: number[]): Kitchen {
  const [coldest, hottest] = [Math.min(...temperatures), Math.max(...temperatures)]
  const known = new Map<string, Standing>()
  return (placeC, culture) => {
    const name = `${culture} ${placeC}`
    const standing = known.get(name) ?? standingAt(placeC, culture, coldest, hottest)
    known.set(name, standing)
    return standing
  }
}

const longestHours = 96
// Nearer than this to its place a dough is as warm as its place.
const sameC = 0.01

function standingAt(placeC: number, culture: Culture, coldest: number, hottest: number): Standing {
  const perHour = rate(placeC, culture)
  const held: Standing = {
    hoursIn: (_, minutes) => (perHour * minutes) / 60,
    minutesTo: (_, hours) => (hours <= 0 ? 0 : within((60 * hours) / perHour)),
  }
  const fromCold = lazily(() => curveFrom(coldest, placeC, culture))
  const fromHot = lazily(() => curveFrom(hottest, placeC, culture))
  const side = (startC: number) => {
    if (Math.abs(startC - placeC) <= sameC) return held
    return startC < placeC ? fromCold() : fromHot()
  }
  return {
    hoursIn: (startC, minutes) => side(startC).hoursIn(startC, minutes),
    minutesTo: remembered((startC, hours) => side(startC).minutesTo(startC, hours)),
  }
}

/** A day is laid out dozens of times with the same dough coming to the same place. */
function remembered(minutesTo: Standing["minutesTo"]): Standing["minutesTo"] {
  const known = new Map<number, Map<number, number>>()
  return (startC, hours) => {
    const byHours = known.get(startC) ?? new Map<number, number>()
    if (!byHours.size) known.set(startC, byHours)
    const minutes = byHours.get(hours) ?? minutesTo(startC, hours)
    byHours.set(hours, minutes)
    return minutes
  }
}
const within = (minutes: number) => (minutes <= longestHours * 60 ? minutes : Number.POSITIVE_INFINITY)

function lazily<Value>(make: () => Value): () => Value {
  let made: Value | undefined
  return () => {
    made ??= make()
    return made
  }
}

function curveFrom(extremeC: number, placeC: number, culture: Culture): Standing {
  const entersAtMs = (startC: number) =>
    settlingHours * hourMs * Math.max(0, Math.log((extremeC - placeC) / (startC - placeC)))
  const endMs = entersAtMs(placeC + Math.sign(extremeC - placeC) * sameC) + longestHours * hourMs
  const [from, to] = [new Date(0), new Date(endMs)]
  const curve = movingToward({ at: from, doughC: extremeC }, { surroundingsC: placeC, tauHours: settlingHours }, to)
  const clock = startClock(curve, from, to, culture)
  return {
    hoursIn(startC, minutes) {
      const ms = entersAtMs(startC)
      return clock.hoursAt(new Date(ms + minutes * minuteMs)) - clock.hoursAt(new Date(ms))
    },
    minutesTo(startC, hours) {
      const ms = entersAtMs(startC)
      const reached = clock.reachedAt(clock.hoursAt(new Date(ms)) + hours)
      return reached ? within((+reached - ms) / minuteMs) : Number.POSITIVE_INFINITY
    },
  }
}
const minuteMs = 60_000

/** A dough's temperature, °C, after so many minutes in a place. */
export const afterC = (startC: number, placeC: number, minutes: number) =>
  towardSurroundingsC({ startC, surroundingsC: placeC, tauHours: settlingHours, hours: minutes / 60 })
