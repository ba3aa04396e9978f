import type { Range } from "../dough/amounts.ts"
import { showMass, showRange, showShare, showTemperature } from "../dough/units.ts"
import type { Viewer } from "../web/access.ts"
import { clockTime, dayAndTime, dayName, dayOf, wallTime, zoneName } from "../web/zones.ts"

export type Say = ReturnType<typeof sayTo>

/** How numbers and times are said to one person: in their units, by their kind of clock and, unless another is given, in their time zone. */
export function sayTo(viewer: Reader | undefined) {
  const { temperatureUnit, massUnit, zone, clock = "24" } = viewer ?? nobody
  return {
    zone,
    clock,
    zoneName: (of = zone) => zoneName(of),
    ...{ temperatureUnit, massUnit },
    temperature: (c: number) => showTemperature(c, temperatureUnit),
    mass: (g: number) => showMass(g, massUnit),
    massRange: (g: Range) => showRange(g, (one) => showMass(one, massUnit)),
    percent: showShare,
    percentRange: (share: Range) => showRange(share, showShare),
    rise: (share: number) => `${share < 0 ? "−" : "+"}${Math.abs(Math.round(share * 100))} %`,
    minutes,
    minutesRange: (low: number, high: number) => (low === high ? minutes(low) : `${minutes(low)} – ${minutes(high)}`),
    hours: (h: number) => h.toFixed(1),
    time: (at: Date, inZone = zone) => clockTime(at, inZone, clock),
    day: (at: Date, inZone = zone) => dayName(dayOf(at, inZone)),
    dayName,
    dayAndTime: (at: Date, inZone = zone) => dayAndTime(at, inZone, clock),
    field: (at: Date, inZone = zone) => wallTime(at, inZone),
  }
}

type Reader = Pick<Viewer, "temperatureUnit" | "massUnit" | "zone"> & { clock?: Viewer["clock"] }
const nobody: Reader = { temperatureUnit: "C", massUnit: "g", zone: "UTC" }

/** "45 min", "5 h", "1 h 30 min" */
function minutes(count: number) {
  const whole = Math.round(Math.abs(count))
  const [hours, rest] = [Math.floor(whole / 60), whole % 60]
  const text = [hours > 0 && `${hours} h`, (rest > 0 || hours === 0) && `${rest} min`].filter(Boolean).join(" ")
  return count < 0 && whole > 0 ? `−${text}` : text
}
