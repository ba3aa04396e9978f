import type { Say } from "../accounts/say.ts"
import type { Change } from "../dough/heat/changes.ts"
import { type Kneading, kneadings } from "../dough/heat/kneading.ts"
import type { ToMix } from "../dough/heat/to-mix.ts"
import type { WaterAnswer } from "../dough/heat/water-for.ts"
import type { TemperatureUnit } from "../dough/readings.ts"

/** A difference of temperatures: "3.2 °C", "−1 °F". */
export function difference(c: number, unit: TemperatureUnit): string {
  const number = Number((unit === "F" ? (c * 9) / 5 : c).toFixed(1))
  return `${number < 0 ? "−" : ""}${Math.abs(number)} °${unit}`
}

/** The kinds of kneading with the rise that is usual for each, and the one to be found out. */
export function kneadingNames(unit: TemperatureUnit): Record<Kneading | "earlier", string> {
  const usual = (of: Kneading) => `+${difference(kneadings[of].riseC, unit)}`
  return {
    hand: `by hand, ${usual("hand")}`,
    mixer: `in a stand mixer, ${usual("mixer")}`,
    processor: `in a food processor, ${usual("processor")}`,
    earlier: "as an earlier dough of mine",
  }
}

/** What to do otherwise and what comes of it, in a sentence. */
export function changeIn(change: Change, { kind }: WaterAnswer, { name, isWater }: ToMix["liquid"], say: Say): string {
  const does = doing(change, say)
  const liquidC = say.temperature(change.waterC)
  if (!change.enough) return `${does} would only bring the ${name} to ${liquidC}.`
  if (kind === "ice")
    return isWater ? `${does}: then tap water will do.` : `${does}: then the ${name} will do as it is.`
  return `${does}: then ${kind === "frozen" ? "half of the water as ice" : `${name} at ${liquidC}`} will do.`
}

function doing(change: Change, say: Say) {
  const { fromC, toC } = change
  const [to, from] = [say.temperature(toC), say.temperature(fromC)]
  if (change.what === "addition") return `${capital(change.name)} at ${to} instead of ${from}`
  if (change.what === "all") return `All that goes in at ${to}, now ${from} on average`
  if (change.what === "dough")
    return `A dough of ${to} instead of ${from}, ${toC < fromC ? "put somewhere warmer to rise" : "and less time for it"}`
  const [rise, was] = [toC, fromC].map((c) => difference(c, say.temperatureUnit))
  const { low, high } = change.minutes
  return `Kneading that warms the dough by ${rise} instead of ${was} (${minutes(low, high)} ${toC > fromC ? "more" : "less"} in a mixer)`
}

const minutes = (low: number, high: number) => `${Math.round(low)} to ${Math.round(high)} min`
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
