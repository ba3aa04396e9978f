import { expect, test } from "vitest"
import { classBand } from "../../server/dough/statistics/class-band.ts"

/** Straight from 0 at `from` to so much an hour, until `to`. */
const rising = (perHour: number, from = 0, to = 4) => [
  { x: from, y: perHour * from },
  { x: to, y: perHour * to },
]

test("the middle of five curves and their quartiles, at every step", () => {
  const band = classBand(
    [10, 20, 30, 40, 100].map((perHour) => rising(perHour)),
    2,
  )

  // of 5 values in order, the quartiles of type 7 are the second and the fourth
  expect(band).toEqual({
    enough: true,
    value: [
      { x: 0, low: 0, middle: 0, high: 0, count: 5 },
      { x: 2, low: 40, middle: 60, high: 80, count: 5 },
      { x: 4, low: 80, middle: 120, high: 160, count: 5 },
    ],
  })
})

test("no curve is carried on beyond its ends", () => {
  const curves = [...[10, 20, 30, 40, 50].map((perHour) => rising(perHour)), rising(1000, 1, 2)]

  const band = classBand(curves, 1)

  expect(band).toMatchObject({ value: [{ count: 5 }, { count: 6 }, { count: 6 }, { count: 5 }, { count: 5 }] })
})

test("between two readings a curve is straight, in whatever order they came", () => {
  const curve = [
    { x: 3, y: 60 },
    { x: 0, y: 0 },
    { x: 1, y: 40 },
  ]

  const band = classBand(Array(5).fill(curve), 0.5)

  const middles = band.enough ? band.value.map(({ middle }) => middle) : []
  expect(middles).toEqual([0, 20, 40, 45, 50, 55, 60])
})

test("four curves have no middle, and neither have five that never meet", () => {
  expect(classBand([rising(1), rising(2), rising(3), rising(4), []], 1)).toEqual({
    enough: false,
    why: "A middle needs at least 5 bakes; there are 4.",
  })
  expect(
    classBand(
      [0, 10, 20, 30, 40].map((from) => rising(1, from, from + 5)),
      1,
    ),
  ).toMatchObject({ enough: false })
})

test("a step of nothing, or a value that is none, is refused", () => {
  const five = Array(5).fill(rising(1))

  expect(() => classBand(five, 0)).toThrow(RangeError)
  expect(() => classBand([...five, [{ x: 0, y: Number.NaN }]], 1)).toThrow(RangeError)
})
