import { expect, test } from "vitest"
import { stoodWarm, stoodWarmAsWritten } from "../../../server/dough/heat/stood-warm.ts"
import type { Stage } from "../../../server/dough/schedule.ts"

const at = (min: number) => new Date(min * 60_000)
const stage = (kind: Stage["kind"], highMin: number, referenceC?: number) => ({
  ...{ kind, highMin },
  ...(referenceC === undefined ? {} : { referenceC }),
})
const whole = ({ cold, room, hot }: { cold: number; room: number; hot: number }) => [cold, room, hot].map(Math.round)

test("a dough that warms from 20 to 40 °C in 100 minutes is above 21 °C for 95 and above 32 °C for 40", () => {
  const curve = [
    { at: at(0), doughC: 20, known: "measured" as const },
    { at: at(100), doughC: 40, known: "measured" as const },
  ]
  expect(whole(stoodWarm(curve, at(0), at(100)))).toEqual([100, 95, 40])
})

test("only the time between the two instants counts, and what lies beyond the curve is held", () => {
  const curve = [{ at: at(0), doughC: 26, known: "measured" as const }]
  expect(whole(stoodWarm(curve, at(-30), at(90)))).toEqual([120, 120, 0])
})

test("written stages count at their longest, each at its own temperature", () => {
  const stood = stoodWarmAsWritten([stage("mix", 20), stage("bulk", 150, 26), stage("proof", 60, 34)])
  expect(whole(stood)).toEqual([230, 230, 60])
  expect(stood.assumed).toBe(false)
})

test("in a retard only the hours until it is cold count", () => {
  const stood = stoodWarmAsWritten([stage("bulk", 120, 26), stage("retard", 1440, 4)])
  expect(stood.cold).toBeGreaterThan(120)
  expect(stood.cold).toBeLessThan(960)
  expect(stood.room).toBeGreaterThan(120)
  expect(stood.room).toBeLessThan(stood.cold)
})

test("a formula that says no temperature is taken for an ordinary kitchen's, and that is told", () => {
  expect(stoodWarmAsWritten([stage("bulk", 90)])).toEqual({ cold: 90, room: 90, hot: 0, assumed: true })
})

test("a kitchen colder than 21 °C leaves six hours of their own", () => {
  expect(whole(stoodWarmAsWritten([stage("bulk", 300, 20)]))).toEqual([300, 0, 0])
})

test("no stages are no time, and minutes below zero none", () => {
  expect(stoodWarmAsWritten([])).toEqual({ cold: 0, room: 0, hot: 0, assumed: false })
  expect(() => stoodWarmAsWritten([stage("bulk", -1)])).toThrow(RangeError)
})
