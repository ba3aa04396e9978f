import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { type About, readQuantity } from "../../../server/dough/quantity/read.ts"
import type { Quantity } from "../../../server/dough/quantity/reading.ts"
import { splitLine } from "../../../server/dough/quantity/split-line.ts"
import { tidy } from "../../../server/dough/quantity/tokens.ts"
import { breadFlour, choices, grams, larder, of, wholeWheat } from "./pantry.ts"

const listed = (list: string) => list.split(" ").map((word) => word.replaceAll("_", " "))
const numbers = listed(
  "1 2 3 10 12 100 250 0 0.5 2,5 1.2 1,000 1.250 1_200 ½ 1½ ⅓ 1/2 3/4 1-1/2 1–1/2 11/2 375/400 1/0 9999999 a half dozen three",
)
const units = listed(
  "g g g kg oz lb ml l dl cup cups C c T t tbsp tsp fl_oz pint quart gill % % eggs egg large_eggs XL M L yolks whites sticks " +
    "packets pkg. cube cans pinch dash handful EL # lbs. parts rest °F degrees min hours",
)
const joints = listed(
  "+ plus and & - – to or / ( ) , ; = less minus x × ~ about at_least up_to of the each in_shell by_weight fluid sifted " +
    "packed heaped US metric imperial EU to_taste plus_extra for_dusting more per twice hold_back flour water milk of_flour " +
    "of_the_dough : ... ? ! * used made between",
)
const names = listed("_ flour milk eggs eggs,_large egg_yolks butter salt fresh_yeast water purple_dust")
const measures = ["us", "us-label", "metric", "imperial"] as const

/** The same row of random numbers from 0 to 1 each time: mulberry32, public domain. */
function randomRow(seed: number) {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

/** Lines put together from what bakers write, and of any letters at all. */
function randomLines(seed: number) {
  const random = randomRow(seed)
  const upTo = (most: number) => Math.floor(random() * most)
  const one = <T>(list: readonly T[]) => list[upTo(list.length)]!
  const piece = () => {
    const kind = random()
    if (kind < 0.2) return one(numbers)
    if (kind < 0.6) return `${one(numbers)}${one([" ", "", "-"])}${one(units)}`
    return kind < 0.75 ? one(units) : one(joints)
  }
  const letter = () => String.fromCodePoint(random() < 0.5 ? 32 + upTo(95) : upTo(random() < 0.8 ? 0x3000 : 0x10ffff))
  const line = () => Array.from({ length: 1 + Math.floor(4 * random() ** 3) }, piece).join(" ")
  return {
    line: () => (random() < 0.85 ? line() : Array.from({ length: upTo(20) }, letter).join("")),
    about: (): About => ({
      ingredient: random() < 0.6 ? one(larder) : undefined,
      name: one(names).trim(),
      measures: one(measures),
    }),
  }
}

const figure = (quantity: Quantity) =>
  quantity.kind === "mass" ? quantity.g : quantity.kind === "percent" ? quantity.share : undefined

/** As many as the whole run of .ci/run asks for; fewer where somebody waits. */
const lines = Number(process.env.LINES ?? 25_000)

describe("whatever is typed", () => {
  test("gives an amount from low to high or a question, and never throws", () => {
    const { line, about } = randomLines(1)
    let understood = 0
    for (let times = 0; times < lines; times++) {
      const text = line()
      const range = figure(readQuantity(text, about()))
      if (range && !(range.low >= 0 && range.low <= range.high && range.high <= 10_000_000)) expect(text).toBe(range)
      if (range) understood++
    }
    expect(understood).toBeGreaterThan(lines / 10)
  })

  test("has only choices that read without a question, within 120 letters", () => {
    const { line, about } = randomLines(2)
    let read = 0
    for (let times = 0; times < 5000; times++) {
      const [text, what] = [line(), about()]
      const quantity = readQuantity(text, what)
      for (const readAs of choices(quantity)) {
        read++
        expect(["mass", "percent"], `${text} offers ${readAs}`).toContain(readQuantity(readAs, what).kind)
        expect(readAs.length).toBeLessThanOrEqual(120)
      }
    }
    expect(read).toBeGreaterThan(1000)
  })

  test("is read the same with wider spaces, and when it was tidied before", () => {
    const { line, about } = randomLines(3)
    for (let times = 0; times < 3000; times++) {
      const [text, what] = [line(), about()]
      expect(tidy(tidy(text))).toBe(tidy(text))
      expect(figure(readQuantity(text.replaceAll(" ", " \u2009"), what))).toEqual(figure(readQuantity(text, what)))
    }
  })

  test("taken apart loses no letter and no digit but 'of' and a list's numbering", () => {
    const { line } = randomLines(4)
    const lettersOf = (text: string) => text.match(/[\p{L}\p{N}]/gu)?.length ?? 0
    for (let times = 0; times < 5000; times++) {
      const text = line()
      const kept = lettersOf(text.replace(/\bof\b/gi, "").replace(/^\W*(\d{1,2}[.)]\s+)+/, ""))
      expect(lettersOf(Object.values(splitLine(text)).join(" ")), text).toBeGreaterThanOrEqual(kept)
    }
  })
})

/** Patterns that backtrack, or a grammar that tries everything twice, would take minutes over these. */
test.each([
  ...["1 ", "1/", "1-", "1(", "1 (1 ", "1 or ", "1 of ", "1 egg of ", "1tin of 1g,", "1+", "a ", "- ", "1,000", "\t"],
  ...["()", "½", "fl ", "plus ", "1 cup plus ", "extra ", "of the "],
])("%j, over and over, is answered at once", (piece) => {
  for (const times of [Math.floor(120 / piece.length), 30_000]) {
    const text = piece.repeat(times)
    expect(["asks", "blank", "mass"]).toContain(readQuantity(text, of(breadFlour)).kind)
    expect(splitLine(text)).toBeDefined()
  }
})

test("a mass comes back from any unit it is written in", () => {
  const units = { kg: 1000, g: 1, mg: 0.001, oz: 28.349523125, lb: 453.59237 }
  const property = fc.property(
    fc.constantFrom(...Object.entries(units)),
    fc.integer({ min: 1, max: 9999 }),
    ([unit, g], n) => {
      expect(grams(`${n} ${unit}`)).toBeCloseTo(n * g, 6)
    },
  )
  fc.assert(property, { seed: 5 })
})

test("a volume weighs the same in cups, spoons and fluid ounces", () => {
  const inCup = { tsp: 48, tbsp: 16, "fl oz": 8, gill: 2, cups: 1, pints: 1 / 2, quarts: 1 / 4 }
  const property = fc.property(
    fc.constantFrom(...Object.entries(inCup)),
    fc.constantFrom("us", "us-label"),
    fc.integer({ min: 1, max: 999 }),
    ([unit, count], measures, n) => {
      const what = of(wholeWheat, measures)
      expect(grams(`${4 * n * count} ${unit}`, what)).toBeCloseTo(grams(`${4 * n} cups`, what), 8)
    },
  )
  fc.assert(property, { seed: 6 })
})
