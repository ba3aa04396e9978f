/** What a statistic says: its value, or in words why there is too little to say anything. */
export type Answer<Value> = { enough: true; value: Value } | NotEnough
type NotEnough = { enough: false; why: string }

/** A value, where there is enough to give one. */
export const enough = <Value>(value: Value): Answer<Value> => ({ enough: true, value })
/** Why there is too little to give a value, as a sentence. */
export const notEnough = (why: string): NotEnough => ({ enough: false, why })

/** Two measured values that belong together. */
export type Point = { x: number; y: number }

/**
 * That there are too few values, or undefined when there are enough: of fewer than three, one odd value is the middle or
 * half of it (our own limit). Throws RangeError for a value that is no finite number.
 */
export function tooFew(values: number[]): NotEnough | undefined {
  refuseInfinite(values)
  return needThree(values.length, "values")
}

/** As tooFew, for points. */
export function tooFewPoints(points: Point[]): NotEnough | undefined {
  refuseInfinite(points.flatMap(({ x, y }) => [x, y]))
  return needThree(points.length, "points")
}

function refuseInfinite(values: number[]) {
  for (const value of values) if (!Number.isFinite(value)) throw new RangeError(`${value} is not a finite number`)
}

const needThree = (count: number, what: string) =>
  count < 3 ? notEnough(`At least 3 ${what} are needed; there are ${count}.`) : undefined
