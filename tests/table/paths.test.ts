import { expect, test } from "vitest"
import { dots, points, thinned } from "../../server/table/paths.ts"
import type { XY } from "../../server/table/ribbon.ts"

test("what lies on the way between two points is left out, and corners never are", () => {
  expect(
    points([
      [0, 64],
      [0, 30],
      [50.2, 30.04],
      [100, 30],
      [100, 64],
    ]),
  ).toBe("0,64 0,30 100,30 100,64")
  expect(
    points([
      [0, 10],
      [50, 20],
      [100, 10],
    ]),
  ).toBe("0,10 50,20 100,10")
})

test("a gentle bend keeps its shape, however many points it is told in", () => {
  const bend = Array.from({ length: 101 }, (_, x): XY => [x * 4, 30 + (x - 50) ** 2 / 250])
  const drawn = points(bend)
    .split(" ")
    .map((pair) => pair.split(",").map(Number) as XY)

  expect(drawn.length).toBeLessThan(40)
  for (const [x, y] of bend) {
    const after = drawn.findIndex(([at]) => at >= x)
    const [[fromX, fromY], [toX, toY]] = [drawn[Math.max(0, after - 1)]!, drawn[after]!]
    const lineY = toX === fromX ? toY : fromY + ((toY - fromY) * (x - fromX)) / (toX - fromX)
    expect(Math.abs(lineY - y)).toBeLessThan(0.5)
  }
})

test("dots that would lie on each other are thinned, and the last one stays", () => {
  const all = Array.from({ length: 60 }, (_, index) => ({ x: index * 5, y: 20 }))

  const kept = thinned(all)

  expect(kept.length).toBeLessThan(25)
  expect(kept[0]).toBe(all[0])
  expect(kept.at(-1)).toBe(all.at(-1))
  expect(thinned([{ x: 3 }, { x: 90 }])).toHaveLength(2)
  expect(dots([{ x: 3.4, y: 20.26 }])).toBe("M3 20.3h0")
})
