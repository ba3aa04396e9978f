import { describe, expect, test } from "vitest"
import {
  readLength,
  readPh,
  readRise,
  readTemperature,
  readTemperatureDifference,
} from "../../server/dough/readings.ts"

const value = (expected: number) => ({ value: expect.closeTo(expected, 9) })
const error = (reason: RegExp) => ({ error: expect.stringMatching(reason) })

describe("a temperature", () => {
  test.each([
    ["24.5", "C", 24.5],
    ["24,5", "C", 24.5],
    ["75", "F", 215 / 9],
    ["75 F", "C", 215 / 9],
    ["24 °C", "F", 24],
    ["24º", "C", 24],
    ["75 degrees Fahrenheit", "C", 215 / 9],
    ["−3", "C", -3],
  ] as const)("%s on a scale of °%s", (text, unit, expected) => {
    expect(readTemperature(text, unit, "dough")).toEqual(value(expected))
  })

  test.each([
    ["206", "C", "dough", /^206 °C is not possible for a dough. Is that 20.6 °C\?$/],
    ["75", "C", "dough", /Is that 75 °F\?$/],
    ["75 °C", "C", "dough", /from −5 °C to 50 °C/],
    ["150 F", "C", "dough", /from 23 °F to 122 °F/],
    ["9999", "C", "dough", /from −5 °C to 50 °C/],
    ["-12", "C", "room", /a room: it must be from −10 °C/],
    ["15", "C", "inside", /the inside of a loaf/],
    ["", "C", "dough", /^Give a temperature/],
    ["warm", "C", "dough", /as a number/],
    ["1e1", "C", "dough", /as a number/],
  ] as const)("%j in °%s of a %s is questioned", (text, unit, of, reason) => {
    expect(readTemperature(text, unit, of)).toEqual(error(reason))
  })

  test("of a baked loaf may be what no dough can be", () => {
    expect(readTemperature("206", "F", "inside")).toEqual(value((206 - 32) / 1.8))
    expect(readTemperature("97", "C", "inside")).toEqual(value(97))
  })
})

describe("a temperature of what goes into a dough", () => {
  test.each([
    ["62", "F", "water", (62 - 32) / 1.8],
    ["-18", "C", "ice", -18],
    ["0 F", "C", "ice", -32 / 1.8],
    ["-20", "C", "flour", -20],
    ["4", "C", "ingredient", 4],
    ["38", "F", "fridge", 6 / 1.8],
  ] as const)("%s in °%s may be %s", (text, unit, of, expected) => {
    expect(readTemperature(text, unit, of)).toEqual(value(expected))
  })

  test.each([
    ["-3", "water", /^-3 °C is not possible for water: it must be from 0 °C to 100 °C/],
    ["4", "ice", /not possible for ice. Is that 4 °F\?/],
    ["65", "flour", /not possible for flour. Is that 65 °F\?/],
    ["38", "fridge", /not possible for a refrigerator. Is that 38 °F\?/],
  ] as const)("%s is questioned of %s", (text, of, reason) => {
    expect(readTemperature(text, "C", of)).toEqual(error(reason))
  })
})

describe("a difference of temperatures", () => {
  test.each([
    ["3", "C", 3],
    ["9", "F", 5],
    ["+5 °F", "C", 25 / 9],
    ["-1,5", "C", -1.5],
  ] as const)("%s on a scale of °%s has no zero to be counted from", (text, unit, expected) => {
    expect(readTemperatureDifference(text, unit)).toEqual(value(expected))
  })

  test.each([
    ["", /^Give a difference/],
    ["much", /as a number of degrees/],
    ["75", /does not change a dough by 75 °C/],
  ])("%j is questioned", (text, reason) => {
    expect(readTemperatureDifference(text, "C")).toEqual(error(reason))
  })
})

describe("a rise", () => {
  test.each([
    ["50 %", "", 0.5],
    ["+50%", "", 0.5],
    ["170 % of", "", 0.7],
    ["170 % of the start", "", 0.7],
    ["-10 %", "", -0.1],
    ["78 mm", "50", 0.56],
    ["7,8 cm", "50 mm", 0.56],
    ["900 ml", "500 ml", 0.8],
    ["3 in", '2"', 0.5],
    ["45", "50", -0.1],
  ])("%s from %j", (text, start, expected) => {
    expect(readRise(text, start)).toEqual(value(expected))
  })

  test.each([
    ["", "50", /^Give the rise/],
    ["high", "50", /as a number/],
    ["50", "", /or write 50 % if that is what it has gained/],
    ["78", "low", /height at the start as a number/],
    ["-5", "50", /above 0/],
    ["78", "0", /above 0/],
    ["78 mm", "3 fingers", /same unit/],
    ["600", "50", /more than ten times/],
    ["4", "50", /less than a tenth/],
  ])("%j from %j is questioned", (text, start, reason) => {
    expect(readRise(text, start)).toEqual(error(reason))
  })
})

test.each(["4.1", "4,1", "pH 4.1"])("pH %s", (text) => {
  expect(readPh(text)).toEqual(value(4.1))
})

test.each([
  ["41", /Is that 4.1\?/],
  ["0", /between 2.5 and 9/],
  ["sour", /as a number/],
  ["", /^Give a pH/],
])("pH %j is questioned", (text, reason) => {
  expect(readPh(text)).toEqual(error(reason))
})

test.each([
  ["95", 95],
  ["95 mm", 95],
  ["10 cm", 100],
  ["4 in", 101.6],
  ["1000", 1000],
])("a length of %s", (text, mm) => {
  expect(readLength(text)).toEqual(value(mm))
})

test.each([
  ["0", /above 0/],
  ["-3", /above 0/],
  ["1001", /more than 1000 mm/],
  ["2 m", /mm, cm or in/],
  ["", /^Give a length/],
])("a length of %j is questioned", (text, reason) => {
  expect(readLength(text)).toEqual(error(reason))
})
