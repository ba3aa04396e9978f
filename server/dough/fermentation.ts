export const referenceC = 24

export type Reading = { at: Date; doughC: number }
export type CurvePoint = { at: Date; doughC: number; known: "measured" | "assumed" }
/** A stage as it was run; `cold` means put in the fridge. */
export type Span = { startsAt: Date; endsAt: Date; surroundingsC?: number; cold?: boolean }

export function yeastGrowthPerHour(doughC: number): number {
  throw new Error(`not built yet: ${doughC}`)
}

export function rate(doughC: number): number {
  throw new Error(`not built yet: ${doughC}`)
}

export function doughCurve(readings: Reading[], spans: Span[]): CurvePoint[] {
  throw new Error(`not built yet: ${readings.length}, ${spans.length}`)
}

export function referenceHours(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  throw new Error(`not built yet: ${curve.length}, ${startsAt}, ${endsAt}`)
}

export function assumedShare(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  throw new Error(`not built yet: ${curve.length}, ${startsAt}, ${endsAt}`)
}
