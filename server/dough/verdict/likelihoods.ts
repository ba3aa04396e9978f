import type { FaultKey } from "./explanations.ts"
import { paces, perCell } from "./hypotheses.ts"

/** One thing that was told, as it is weighed: the logarithm of how likely it is in each cell. */
export type Piece = {
  key: string
  words: string
  source: string
  /** What tells the same thing in other words shares its group. */
  group: string
  /** Whether a verdict may rest on it: on a measurement by itself, on anything else in company. */
  decides: boolean
  measured: boolean
  logs: Float64Array
}

/** One value in fifty is not what it seems: misread, misheard, of something else. Our own judgement. */
const mistaken = 0.02
/** How likely such a value is, per unit of log progress: anywhere on the line of progress. */
const anywhere = 1 / 3.2

/** Logarithm of how likely a value is that scatters around `centre`, unless it is mistaken. */
export function logNear(value: number, centre: number, sd: number): number {
  const z = (value - centre) / sd
  return Math.log(((1 - mistaken) * Math.exp(-0.5 * z * z)) / (sd * Math.sqrt(2 * Math.PI)) + mistaken * anywhere)
}

/** A value of log progress that is seen of the dough itself. */
export const nearProgress = (value: number, sd: number): Float64Array => perCell((x) => logNear(value, x, sd))

/** A value of log progress by the clock: a dough that works slowly has come less far in the same hours. */
export const nearByClock = (value: number, sd: number): Float64Array =>
  perCell((x, _fault, at) => logNear(value, x - paces[at]!.at, Math.hypot(sd, paces[at]!.sd)))

/** Only says how likely each fault is, whatever the progress: times as likely as without it. */
export const times = (factors: { [key in FaultKey]?: number }): Float64Array =>
  perCell((_x, fault) => Math.log((fault && factors[fault]) ?? 1))
