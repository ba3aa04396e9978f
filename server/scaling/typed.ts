import { type PanShape, panMeasures, panShapes, readPan } from "../dough/formula/pan-measures.ts"
import type { Pan } from "../dough/formula/pans.ts"
import { readQuantity } from "../dough/quantity/read.ts"
import { type Read, readLength } from "../dough/readings.ts"

// More than any bakery's day. Our own limit.
const mostTimes = 1000

/** How many times the formula is made: "2", "1/2", "1.5". */
export function readTimes(text: string): Read<number> {
  const asked = { error: "Give how many times as a number, such as 2, 1/2 or 1.5." }
  if (!isBare(text)) return asked
  const read = readQuantity(`${text} g`)
  if (read.kind === "asks") return { error: read.question }
  if (read.kind !== "mass" || read.g.low === 0) return asked
  return read.g.low <= mostTimes ? { value: read.g.low } : { error: `Give at most ${mostTimes} times.` }
}

/** A whole number of `what`. */
export const readCount =
  (what: string) =>
  (text: string): Read<number> =>
    /^[1-9]\d{0,3}$/.test(text.trim())
      ? { value: Number(text) }
      : { error: `Give how many ${what}, as a whole number from 1 to 9999.` }

/** A percentage from `low` to `high`, as a share. */
export const readPercent =
  (low: number, high: number) =>
  (text: string): Read<number> => {
    const [, number] = /^\s*(\d+(?:[.,]\d+)?)\s*%?\s*$/.exec(text) ?? []
    const percent = Number(number?.replace(",", "."))
    return percent >= low && percent <= high
      ? { value: percent / 100 }
      : { error: `Give a percentage from ${low} to ${high}.` }
  }

/** The shape that stands in the address, a round one unless it is another. */
export const shapeOf = (typed: string | undefined): PanShape => panShapes.find((shape) => shape === typed) ?? "round"

/** A pan's inside measures; `height` where its volume is asked for. */
export const readPanOf =
  (shape: PanShape, needs?: "height") =>
  (text: string): Read<Pan> => {
    if (text.trim() === "") return { error: `Give the pan's inside: ${panMeasures[shape]}.` }
    const read = readPan(shape, text)
    if ("problem" in read) return { error: read.problem }
    if (needs && read.pan.heightMm === undefined)
      return { error: "Give the height too: what a pan holds depends on it." }
    return { value: read.pan }
  }

/** A length in mm with its unit, "6 cm"; a bare number could be any. */
export const readWithUnit =
  (asked: string) =>
  (text: string): Read<number> =>
    /[a-z"″]/i.test(text) ? readLength(text) : { error: asked }

/** The same, where nothing at all is a length too. */
export const readGap = (text: string): Read<number> =>
  /^\s*0+(?:[.,]0*)?\s*(?:mm|cm|in)?\s*$/i.test(text)
    ? { value: 0 }
    : readWithUnit("Give the gap between two pieces with its unit, such as 2 cm.")(text)

const isBare = (text: string) => /^[\s\d.,/⁄½⅓⅔¼¾⅕⅛⅜⅝⅞]+$/.test(text)
