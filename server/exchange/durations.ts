import { Temporal } from "temporal-polyfill"

/** Minutes as an ISO 8601 duration of hours at most: days would not be of 24 hours when clocks change. "PT26H30M". */
export const isoDuration = (min: number) =>
  Temporal.Duration.from({ seconds: Math.round(min * 60) })
    .round({ largestUnit: "hours" })
    .toString()

/** The minutes of an ISO 8601 duration, "P1DT2H30M" and "PT26H30M" alike; undefined for anything else, months too. */
export function minutesOf(duration: string): number | undefined {
  try {
    const { years, months, weeks, ...rest } = read(duration.trim())
    if (years || months) return undefined
    return Temporal.Duration.from({ ...rest, days: rest.days + 7 * weeks }).total("minutes")
  } catch (error) {
    if (error instanceof RangeError) return undefined
    throw error
  }
}

function read(duration: string) {
  const { years, months, weeks, days, hours, minutes, seconds } = Temporal.Duration.from(duration)
  return { years, months, weeks, days, hours, minutes, seconds }
}
