import fc from "fast-check"
import { expect, test } from "vitest"
import { drawPieces } from "../server/bakes/piece-strip.ts"

const masses = fc.array(
  fc.integer({ min: 800, max: 1000 }).map((tenths) => tenths / 10),
  { minLength: 1, maxLength: 60 },
)

test("no two pieces are drawn over each other, and all within the drawing", () => {
  fc.assert(
    fc.property(masses, (massesG) => {
      const { marks, radius, groundY } = drawPieces(massesG, [])
      for (const [at, { x, y }] of marks.entries()) {
        expect(x - radius).toBeGreaterThanOrEqual(0)
        expect(x + radius).toBeLessThanOrEqual(360)
        expect(y - radius).toBeGreaterThanOrEqual(0)
        expect(y + radius).toBeLessThanOrEqual(groundY)
        for (const other of marks.slice(at + 1))
          expect(Math.hypot(other.x - x, other.y - y)).toBeGreaterThanOrEqual(2 * radius - 1e-9)
      }
    }),
  )
})

test("a heavier piece lies further right, by as much as it is heavier", () => {
  const { marks } = drawPieces([90, 92, 96], [])
  const [a, b, c] = marks.map(({ x }) => x)
  expect(c! - b!).toBeCloseTo(2 * (b! - a!), 9)
})

test("equal pieces stand one above the other, in the middle", () => {
  const { marks } = drawPieces([90, 90, 90], [])
  expect(marks.map(({ x }) => x)).toEqual([180, 180, 180])
  expect(new Set(marks.map(({ y }) => y)).size).toBe(3)
})

test("two hundred equal pieces grow no higher than a dozen", () => {
  const height = (count: number) => drawPieces(Array(count).fill(90), []).height
  expect(height(200)).toBeLessThanOrEqual(height(12))
})

test("what was asked and what is allowed lie on the same axis as the pieces", () => {
  const eachG = { low: 90, high: 90 }
  const { marks, asked, allowed } = drawPieces([90, 80], [1], { eachG, allowedG: { low: 85, high: 95 } })
  expect(asked).toEqual({ x: marks[0]!.x, width: 0 })
  expect(allowed!.x + allowed!.width / 2).toBeCloseTo(marks[0]!.x, 9)
  expect(allowed!.x).toBeGreaterThan(marks[1]!.x)
  expect(marks.map(({ outside }) => outside)).toEqual([false, true])
})
