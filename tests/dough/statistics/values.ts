import fc from "fast-check"
import type { Answer } from "../../../server/dough/statistics/answer.ts"

/** Three to a dozen measured values, in hundredths, so that ties turn up. */
export const values = fc.array(
  fc.integer({ min: -400, max: 400 }).map((hundredths) => hundredths / 100),
  { minLength: 3, maxLength: 12 },
)

/** The same values twice, the second time in another order. */
export const shuffled = values.chain((all) =>
  fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
)

export const points = fc.array(
  fc.record({
    x: fc.integer({ min: -20, max: 20 }),
    y: fc.integer({ min: -200, max: 200 }).map((tenths) => tenths / 10),
  }),
  { minLength: 3, maxLength: 12 },
)

export function told<Value>(answer: Answer<Value>): Value {
  if (!answer.enough) throw new Error(answer.why)
  return answer.value
}
