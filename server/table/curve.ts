import type { CurvePoint } from "../dough/fermentation.ts"

/** A straight piece of a dough's temperature curve. */
export type Stretch = { startsAt: Date; endsAt: Date; fromC: number; toC: number; assumed: boolean }

/**
 * The straight pieces of the curve from one instant to another, cut at both; beyond the curve its end values are held,
 * as `referenceHours` does. [] for an empty curve or no time.
 */
export function stretchesOf(curve: CurvePoint[], startsAt: Date, endsAt: Date): Stretch[] {
  const [first, last] = [curve[0], curve.at(-1)]
  if (!first || !last) return []
  const points: CurvePoint[] = [
    { ...first, at: startsAt < first.at ? startsAt : first.at, known: "assumed" },
    ...curve,
    { ...last, at: endsAt > last.at ? endsAt : last.at, known: "assumed" },
  ]
  return points.slice(1).flatMap((to, index) => {
    const from = points[index]!
    const [fromMs, toMs] = [Math.max(+from.at, +startsAt), Math.min(+to.at, +endsAt)]
    if (toMs <= fromMs) return []
    const at = (ms: number) => from.doughC + ((to.doughC - from.doughC) * (ms - +from.at)) / (+to.at - +from.at)
    const assumed = from.known === "assumed" || to.known === "assumed"
    return [{ startsAt: new Date(fromMs), endsAt: new Date(toMs), fromC: at(fromMs), toC: at(toMs), assumed }]
  })
}

/** Mean dough temperature over the time between two instants, °C; undefined without a curve or without time. */
export function meanDoughC(curve: CurvePoint[], startsAt: Date, endsAt: Date): number | undefined {
  const stretches = stretchesOf(curve, startsAt, endsAt)
  const ms = (one: Stretch) => +one.endsAt - +one.startsAt
  const total = stretches.reduce((sum, one) => sum + ms(one), 0)
  if (total === 0) return undefined
  return stretches.reduce((sum, one) => sum + ((one.fromC + one.toC) / 2) * ms(one), 0) / total
}
