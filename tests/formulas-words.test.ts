import { describe, expect, test } from "vitest"
import { readDuration } from "../server/formulas/durations.ts"
import { typedFrom } from "../server/formulas/typed.ts"

describe("a time is read as bakers say it", () => {
  test.each([
    ["90", 90, 90],
    ["45 min", 45, 45],
    ["4 h 30", 270, 270],
    ["4h30", 270, 270],
    ["1.5 h", 90, 90],
    ["4–5 h", 240, 300],
    ["45-60", 45, 60],
    ["12 to 16 hours", 720, 960],
    ["1 h 30 min – 2 h", 90, 120],
    ["2 d", 2880, 2880],
    ["", 0, 0],
  ])("%s", (text, low, high) => expect(readDuration(text)).toEqual({ value: { low, high } }))
})

test.each(["overnight", "5–4 h", "-3 h", "1–2–3 h", "30 d", "four"])("%s is asked about", (text) => {
  expect(readDuration(text)).toHaveProperty("error")
})

test("rows keep their order whatever their numbers, and twins and strange keys get new ones", () => {
  const typed = typedFrom({
    "stages.10.key": "a",
    "stages.10.name": "last",
    "stages.2.key": "a",
    "stages.2.name": "first",
    "stages.5.key": "<b>",
    "stages.__proto__.key": "c",
  })
  expect(typed.stages.map(({ name }) => name)).toEqual(["first", "", "last"])
  const keys = typed.stages.map(({ key }) => key)
  expect(keys[0]).toBe("a")
  expect(new Set(keys).size).toBe(3)
  expect(keys[1]).toMatch(/^\w+$/)
})
