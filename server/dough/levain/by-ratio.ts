import { temperatureReadyAt, type Wish } from "../fermentation/ready-at.ts"
import type { Ratio } from "../fermentation/sourdough-rise.ts"
import { hourMs } from "../fermentation/temperature-curve.ts"
import { type Count, counts, hoursOf, isEnough, type Levain } from "./builds.ts"
import { type Feeding, feedingIn } from "./feeding.ts"
import { hoursToRipe, jarPrior } from "./ripening.ts"

/**
 * Feedings by one ratio, the first from the starter, each further one from what came of the one before: as many as asked, or as few as the
 * starter there is makes enough with; undefined where not even the most do. Throws RangeError like feedingIn.
 */
export function feedingsBy(ratio: Ratio, levain: Levain, asked?: Count): Feeding[] | undefined {
  return (asked ? [asked] : counts)
    .map((count) => repeated(ratio, count, levain))
    .find((feedings) => isEnough(feedings, levain))
}

/** So many feedings by one ratio. Throws RangeError like feedingIn. */
export function repeated(ratio: Ratio, count: Count, { starter, other }: Levain): Feeding[] {
  const feedings: Feeding[] = []
  for (let index = 0; index < count; index++)
    feedings.push(feedingIn(ratio, feedings.at(-1)?.hydration ?? starter.hydration, other))
  return feedings
}

/**
 * The steady temperature, °C, at which feedings fed from one instant on are ripe at another; or in words why there is none. Throws
 * RangeError for a time that does not lie after the start.
 */
export function warmthFor(
  feedings: Feeding[],
  rise: number,
  { feedAt, ripeAt }: { feedAt: Date; ripeAt: Date },
): Wish<number> {
  const [first] = feedings
  if (!first) throw new RangeError("without a feeding there is nothing to ripen")
  // at a steady temperature each takes its share of the time
  const part = hoursToRipe(first.share, rise).hours / hoursOf(feedings, rise)
  const readyAt = new Date(+feedAt + part * (+ripeAt - +feedAt))
  const leaven = { culture: "sourdough" as const, share: first.share }
  return temperatureReadyAt({ leaven, startsAt: feedAt, readyAt, targetRise: rise, prior: jarPrior(rise) })
}

/** The hours between two instants. */
export const hoursBetween = (from: Date, to: Date) => (+to - +from) / hourMs
