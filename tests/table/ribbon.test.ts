import { expect, test } from "vitest"
import { type Lined, layAxis } from "../../server/table/axis.ts"
import { drawRibbon, rateHeightOf, ribbonWidth, type XY } from "../../server/table/ribbon.ts"
import { layRow } from "../../server/table/row.ts"
import { at, log, nextDay, onPlan, stages, target } from "./log.ts"

type Logged = ReturnType<typeof log>
const rows = (...logs: Logged[]) => logs.map((one) => layRow(one, stages, target, nextDay))
const axisOf = (lined: Lined, ...logs: Logged[]) => layAxis(rows(...logs), lined, "Europe/Lisbon")

/** Shoelace formula. */
function areaOf(points: XY[]) {
  const doubled = points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length]!
    return sum + x * nextY - nextX * y
  }, 0)
  return Math.abs(doubled) / 2
}
const total = (areas: XY[][]) => areas.reduce((sum, points) => sum + areaOf(points), 0)

test("equal area is equal fermentation, at any temperature", () => {
  const warmShort = log({ ...onPlan, bulk: ["10:00", "14:00"] }, [
    ["dough", "10:00", 24],
    ["dough", "14:00", 29],
    ["dough", "16:20", 28],
  ])
  const coldLong = log({ ...onPlan, bulk: ["06:00", "14:00"] }, [
    ["dough", "06:00", 22],
    ["dough", "14:00", 17],
    ["dough", "16:20", 19],
  ])
  const axis = axisOf("table", warmShort, coldLong)
  const anHour = (ribbonWidth / (axis.toH - axis.fromH)) * rateHeightOf("sourdough")

  for (const row of rows(warmShort, coldLong)) {
    const ribbon = drawRibbon(row, axis)
    const hours = total(ribbon.areas.map(({ points }) => points)) / anHour
    expect(Math.abs(hours / row.fermented!.hours - 1)).toBeLessThan(0.005)
    expect(total(ribbon.plan) / anHour).toBeCloseTo(row.plannedHours!, 6)
  }
})

test("a bake on plan fills its outline exactly", () => {
  const one = log(onPlan, [
    ["dough", "09:00", 24],
    ["dough", "16:20", 24],
  ])
  // with the hour to cool the plan ends 17:00 + 60 min = 18:00
  const ribbon = drawRibbon(rows(one)[0]!, axisOf("table", one))

  expect(ribbon.areas.map(({ kind, assumed }) => [kind, assumed])).toEqual([
    ["bulk", false],
    ["shape", false],
    ["proof", false],
  ])
  expect(ribbon.areas[0]!.points[0]![0]).toBeCloseTo(ribbon.plan[0]![0]![0], 6)
  expect(total(ribbon.areas.map(({ points }) => points))).toBeCloseTo(total(ribbon.plan), 6)
  expect(ribbon.oven).toEqual(ribbon.plannedOven)
})

test("what was held beyond the readings is marked as assumed", () => {
  const one = log(onPlan, [
    ["dough", "09:00", 24],
    ["dough", "12:00", 25],
  ])
  const { areas } = drawRibbon(rows(one)[0]!, axisOf("table", one))

  expect(areas.map(({ kind, assumed }) => [kind, assumed])).toEqual([
    ["bulk", false],
    ["bulk", true],
    ["shape", true],
    ["proof", true],
  ])
})

test("bakes line up by the table, by the start of fermentation, or by the clock", () => {
  const early = log(onPlan, [["dough", "09:00", 24]])
  const late = log({ ...onPlan, bulk: ["10:00", "14:00"] }, [["dough", "10:00", 24]], { onTableAt: at("19:00") })
  const startsIn = (lined: Lined) =>
    rows(early, late).map((row) => drawRibbon(row, axisOf(lined, early, late)).areas[0]!.points[0]![0])

  const [tableEarly, tableLate] = startsIn("table")
  expect(tableEarly).toBeCloseTo(tableLate!, 6)
  const [startEarly, startLate] = startsIn("start")
  expect(startEarly).toBeCloseTo(startLate!, 6)
  const [clockEarly, clockLate] = startsIn("clock")
  expect(clockLate! - clockEarly!).toBeGreaterThan(50)
})

test("ticks say their unit: hours to the table, or the class's clock", () => {
  const one = log(onPlan, [["dough", "09:00", 24]])
  expect(axisOf("table", one).ticks.map(({ label }) => label)).toEqual([
    "−9 h",
    "−8 h",
    "−7 h",
    "−6 h",
    "−5 h",
    "−4 h",
    "−3 h",
    "−2 h",
    "−1 h",
    "table",
  ])
  expect(layAxis(rows(one), "clock", "Europe/Helsinki").ticks[0]!.label).toBe("11:00")
})

test("a bake of another day does not squeeze the others; it is cut and says so", () => {
  const twoDaysLater = log(onPlan, [["dough", "09:00", 24]], { onTableAt: at("18:00", 12) })
  const axis = axisOf("table", twoDaysLater)

  expect(axis.toH).toBeLessThan(13)
  expect(drawRibbon(rows(twoDaysLater)[0]!, axis).beyond).toEqual({ before: false, after: true })
})

test("nothing logged draws the plan alone", () => {
  const ribbon = drawRibbon(rows(log({}))[0]!, axisOf("start", log({})))

  expect(ribbon.areas).toEqual([])
  expect(ribbon.plan).toHaveLength(3)
})

test("on an axis of reference hours all strips are equally high, and area is still fermentation", () => {
  const warmShort = log({ ...onPlan, bulk: ["10:00", "14:00"] }, [
    ["dough", "10:00", 24],
    ["dough", "16:20", 29],
  ])
  const coldLong = log({ ...onPlan, bulk: ["06:00", "14:00"] }, [
    ["dough", "06:00", 22],
    ["dough", "16:20", 17],
  ])
  const axis = axisOf("reference", warmShort, coldLong)
  const anHour = (ribbonWidth / (axis.toH - axis.fromH)) * rateHeightOf("sourdough")
  const tops = (areas: XY[][]) => new Set(areas.map((points) => Math.min(...points.map(([, y]) => y)).toFixed(6)))

  for (const row of rows(warmShort, coldLong)) {
    const ribbon = drawRibbon(row, axis)
    const areas = ribbon.areas.map(({ points }) => points)
    expect([...tops(areas)]).toEqual([...tops(ribbon.plan)])
    expect(total(areas) / anHour).toBeCloseTo(row.fermented!.hours, 6)
    expect(total(ribbon.plan) / anHour).toBeCloseTo(row.plannedHours!, 6)
  }
})

test("a bake whose temperature nobody knows has no place on an axis of reference hours, only its plan has", () => {
  const ribbon = drawRibbon(rows(log(onPlan))[0]!, axisOf("reference", log(onPlan)))

  expect(ribbon.areas).toEqual([])
  expect(ribbon.oven).toEqual([])
  expect(ribbon.plan).toHaveLength(3)
  expect(JSON.stringify(ribbon)).not.toContain("null")
})

test("bakes line up from the start of any stage; one without it stands where its plan has it and says so", () => {
  const proofed = log({ ...onPlan, proof: ["15:00", "16:20"] }, [["dough", "09:00", 24]])
  const { proof, ...short } = onPlan
  const axis = axisOf("from-proof", proofed)
  const zero = (-axis.fromH / (axis.toH - axis.fromH)) * ribbonWidth

  const [marked, unmarked] = [drawRibbon(rows(proofed)[0]!, axis), drawRibbon(rows(log(short))[0]!, axis)]
  expect(marked.areas.find(({ kind }) => kind === "proof")!.points[0]![0]).toBeCloseTo(zero, 6)
  expect([marked.unmarked, unmarked.unmarked]).toEqual([false, true])
  expect(proof).toEqual(["14:20", "16:20"])
})
