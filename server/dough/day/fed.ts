import { rate } from "../fermentation/growth.ts"
import { gasMade, hoursToGas } from "../fermentation/leaven.ts"
import { shareOfRatio } from "../fermentation/sourdough-rise.ts"
import type { Stage } from "../schedule.ts"
import type { DayQuestion } from "./day.ts"

type Levain = NonNullable<DayQuestion["levain"]>

/**
 * A levain's stage with the minutes that it takes as it is fed, whole ones: as much gas as by the written feeding, which is
 * how ripe it was meant to be. At the temperature that its times are meant for, or, where temperature does not drive the
 * stage, at its place's, °C; as written where nothing grows there. Throws RangeError like shareOfRatio and rate.
 */
export function asFed(stage: Stage, { written, fed, starterHydration }: Levain, placeC: number): Stage {
  const [asWritten, asAsked] = [written, fed].map((ratio) => shareOfRatio(ratio, starterHydration))
  const perHour = rate((stage.drivenByTemperature ? stage.referenceC : undefined) ?? placeC, "sourdough")
  if (asWritten === asAsked || !(perHour > 0)) return stage
  const minutes = (min: number) => {
    const gas = gasMade({ culture: "sourdough", share: asWritten! }, (min / 60) * perHour)
    return Math.round((hoursToGas({ culture: "sourdough", share: asAsked! }, gas) / perHour) * 60)
  }
  return { ...stage, lowMin: minutes(stage.lowMin), highMin: minutes(stage.highMin) }
}
