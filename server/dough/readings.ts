import { readQuantity } from "./quantity/read.ts"
import { fToC, showTemperature } from "./units.ts"

export type TemperatureUnit = "C" | "F"
/** What a person typed, read; or one plain sentence to show beside the field. */
export type Read<T> = { value: T } | { error: string }

/** What a temperature is of; an "ingredient" is anything weighed into a dough beside flour and water. */
export type TemperatureOf =
  | "dough"
  | "room"
  | "inside"
  | "water"
  | "flour"
  | "ingredient"
  | "fridge"
  | "ice"
  | "oven"
  | "levain"

// NFKC, in tidy, makes º an o and ″ two primes.
const degree = "(?:[°o]|degrees?)"

// What can be true of a bread being made at home, °C. Our own limits, wide on purpose.
const limitsC: Record<TemperatureOf, [number, number]> = {
  dough: [-5, 50],
  room: [-10, 50],
  inside: [20, 120],
  water: [0, 100],
  flour: [-25, 60],
  ingredient: [-25, 100],
  fridge: [-5, 20],
  ice: [-40, 0],
  oven: [20, 450],
  levain: [-5, 50],
}
const nameOf: Record<TemperatureOf, string> = {
  dough: "a dough",
  room: "a room",
  inside: "the inside of a loaf",
  water: "water",
  flour: "flour",
  ingredient: "an ingredient",
  fridge: "a refrigerator",
  ice: "ice",
  oven: "an oven",
  levain: "a levain",
}

const decimal = String.raw`[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)`
const temperature = `(${decimal}) ?${degree}? ?(c|f|celsius|fahrenheit)?`

/**
 * A temperature in °C from "75", "24,5", "75 F", "24 °C"; a unit that is typed wins over `unit`, the person's own.
 * What is blank, not a temperature or not possible `of` that thing comes back as a sentence, with a question where a
 * forgotten point or the other unit would explain it.
 */
export function readTemperature(text: string, unit: TemperatureUnit, of: TemperatureOf): Read<number> {
  const typed = tidy(text)
  if (typed === "") return { error: "Give a temperature." }
  const match = new RegExp(`^${temperature}$`).exec(typed)
  if (!match) return { error: "Give the temperature as a number, such as 24.5 °C or 76 °F." }
  const number = numberIn(match[1]!)
  const typedUnit = match[2] ? (match[2].startsWith("c") ? "C" : "F") : undefined
  const inUnit = typedUnit ?? unit
  const c = toC(number, inUnit)
  if (isPossible(c, of)) return { value: c }

  const refused = `${number} °${inUnit} is not possible for ${nameOf[of]}`
  const otherUnit = inUnit === "C" ? "F" : "C"
  if (!typedUnit && isPossible(toC(number, otherUnit), of))
    return { error: `${refused}. Is that ${number} °${otherUnit}?` }
  if (number >= 100 && isPossible(toC(number / 10, inUnit), of))
    return { error: `${refused}. Is that ${number / 10} °${inUnit}?` }
  const [low, high] = limitsC[of].map((limit) => showTemperature(limit, inUnit))
  return { error: `${refused}: it must be from ${low} to ${high}.` }
}

/**
 * A difference of temperatures in °C, such as what kneading adds, from "3", "5 F", "+2,5 °C": 9 °F are 5 °C, whatever the
 * zeros of the scales. From −10 to +20 °C, our own limits. Errors are sentences, as in readTemperature.
 */
export function readTemperatureDifference(text: string, unit: TemperatureUnit): Read<number> {
  const typed = tidy(text)
  if (typed === "") return { error: "Give a difference in degrees." }
  const match = new RegExp(`^${temperature}$`).exec(typed)
  if (!match) return { error: "Give the difference as a number of degrees, such as 3 °C or 5 °F." }
  const inUnit = match[2] ? (match[2].startsWith("c") ? "C" : "F") : unit
  const c = numberIn(match[1]!) * (inUnit === "C" ? 1 : 5 / 9)
  if (c >= -10 && c <= 20) return { value: c }
  return { error: `Kneading does not change a dough by ${numberIn(match[1]!)} °${inUnit}; check the number.` }
}

const toC = (number: number, unit: TemperatureUnit) => (unit === "C" ? number : fToC(number))
const isPossible = (c: number, of: TemperatureOf) => c >= limitsC[of][0] && c <= limitsC[of][1]

const mmPer: Record<string, number> = { mm: 1, cm: 10, in: 25.4 } // the inch is exact: NIST SP 811, Appendix B.8
const mostGained = 9
const leastGained = -0.9

/**
 * The share of its starting volume that a dough has gained, 0.5 for +50 %, below 0 when it has fallen. From "50 %",
 * "+50%" or "170 % of" (of the start, so +70 %); or from a present height and `startHeight` in a straight-sided jar, in
 * mm, cm, in, or any unit as long as it is the same for both. Errors are sentences.
 */
export function readRise(text: string, startHeight: string): Read<number> {
  const typed = tidy(text)
  if (typed === "") return { error: "Give the rise, as a percentage or as a height." }
  const percent = new RegExp(`^(${decimal}) ?(?:%|percent)( of.*)?$`).exec(typed)
  if (percent) {
    const share = numberIn(percent[1]!) / 100
    return plausibleRise(percent[2] ? share - 1 : share)
  }
  const now = readHeight(typed)
  if (!now) return { error: "Give the rise as 50 %, or the present height as a number such as 78 mm." }
  if (tidy(startHeight) === "")
    return { error: `Give the height at the start too, or write ${typed} % if that is what it has gained.` }
  const start = readHeight(tidy(startHeight))
  if (!start) return { error: "Give the height at the start as a number such as 50 mm." }
  if (now.number <= 0 || start.number <= 0) return { error: "Heights must be above 0." }
  const scale = scaleBetween(now.unit, start.unit)
  if (scale === undefined) return { error: "Give both heights in the same unit." }
  return plausibleRise((now.number * scale) / start.number - 1)
}

function plausibleRise(share: number): Read<number> {
  if (share > mostGained) return { error: "That is more than ten times the start; check both values." }
  if (share < leastGained) return { error: "That is less than a tenth of the start; check both values." }
  return { value: share }
}

function readHeight(typed: string) {
  const match = new RegExp(`^(${decimal}) ?([a-z"′]*)\\.?$`).exec(typed)
  return match ? { number: numberIn(match[1]!), unit: lengthUnit(match[2]!) } : undefined
}

const lengthUnit = (word: string) => (/^(in|inch|inches|"|′′)$/.test(word) ? "in" : word)

/** How many of unit `b` one of `a` is; a height without a unit has the other's. */
function scaleBetween(a: string, b: string) {
  if (a === b || a === "" || b === "") return 1
  const [aMm, bMm] = [mmPer[a], mmPer[b]]
  return aMm && bMm ? aMm / bMm : undefined
}

/** A pH from "4.1", "4,1" or "pH 4.1". From 2.5 to 9: no dough or starter lies outside. Our own limits. */
export function readPh(text: string): Read<number> {
  const typed = tidy(text)
  if (typed === "") return { error: "Give a pH." }
  const match = new RegExp(`^(?:ph ?)?(${decimal})$`).exec(typed)
  if (!match) return { error: "Give the pH as a number such as 4.1." }
  const ph = numberIn(match[1]!)
  if (ph >= 2.5 && ph <= 9) return { value: ph }
  const guess = ph / 10
  const question = guess >= 2.5 && guess <= 9 ? ` Is that ${guess}?` : ""
  return { error: `A dough's pH lies between 2.5 and 9.${question}` }
}

/** A length in mm from "95", "95 mm", "10 cm" or "4 in"; without a unit it is mm. Above 0 and at most 1000 mm. */
export function readLength(text: string): Read<number> {
  const typed = tidy(text)
  if (typed === "") return { error: "Give a length." }
  const height = readHeight(typed)
  const scale = mmPer[height?.unit || "mm"]
  if (!height || !scale) return { error: "Give the length in mm, cm or in, such as 95 mm." }
  const mm = height.number * scale
  if (mm <= 0) return { error: "A length must be above 0." }
  return mm <= 1000 ? { value: mm } : { error: "That is more than 1000 mm; check the unit." }
}

/**
 * One mass in grams, above 0, from "850 g", "2 kg" or "1 lb 4 oz"; a number without a unit is in `unit`, the person's own.
 * What is no mass, or only by assuming what it weighs, comes back as a sentence.
 */
export function readMass(text: string, unit: "g" | "oz"): Read<number> {
  const asked = { error: "Give a mass, such as 2 kg or 4 lb." }
  if (!/\p{N}/u.test(text)) return asked
  const read = readQuantity(isNumber.test(text) ? `${text} ${unit}` : text)
  if (read.kind === "asks") return { error: read.question }
  if (read.kind !== "mass" || read.assumptions.length) return asked
  if (read.g.low !== read.g.high) return { error: "Give one mass, not a range." }
  return read.g.low > 0 ? { value: read.g.low } : { error: "A mass must be above 0." }
}
const isNumber = /^[\s\d.,/⁄½⅓⅔¼¾⅕⅛⅜⅝⅞]+$/

const tidy = (text: string) =>
  text
    .normalize("NFKC")
    .replace(/\u2212/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase()
const numberIn = (text: string) => Number(text.replace(",", "."))
