import { showTemperature } from "../units.ts"

/** A temperature or a range of them in a sentence, in °C, with the words it was read from. */
export type SaidTemperature = { text: string; start: number; end: number; lowC: number; highC: number }
/** What was found: temperatures that are sure, and sentences that ask about the others. */
export type SaidTemperatures = { sure: SaidTemperature[]; asks: string[] }

const number = String.raw`\d{1,3}(?:[.,]\d)?`
const dash = " ?(?:-|–|—|to) ?"
const degree = String.raw`(?: ?(?:°|º|˚|degrees?|deg\.?))`
const scale = String.raw`(?: ?(?:celsius|centigrade|fahrenheit|[CcFf])(?!\p{L}))`
const one = `(${number})(?:${degree}?${scale}?${dash}(${number}))?(?:(${degree})(${scale})?|(${scale}))`
const pattern = new RegExp(String.raw`(?<![\d.,:/])${one}`, "giu")
const unitless = new RegExp(
  String.raw`\b(?:oven|fridge|room|temperature|temp\.?|warmed to|heated to|preheat(?:ed)? to)(?: (?:to|at|is|of|on|the oven))*\s*(${number}(?:${dash}${number})?)(?![\d:]|[.,]\d|\s*[-–]\s*\d|\s*(?:°|º|˚|[CcFf]\b|deg|g\b|kg|ml|min|h\b|hour|%|x|×))`,
  "giu",
)

/**
 * The temperatures in a sentence: "24–26 °C", "475 °F / 245 °C" (once, where the two agree to the precision at which
 * people round), "28-30°c". One without a unit, two that do not agree, and a gas mark are asked about. Never throws.
 */
export function temperaturesIn(sentence: string): SaidTemperatures {
  const found = [...sentence.matchAll(pattern)].flatMap(({ 0: text, index, ...match }) => {
    const letter = (match[4] ?? match[5] ?? "").trim().charAt(0).toUpperCase()
    const [low, high = low] = [match[1]!, match[2] ?? match[1]!].map((typed) => Number(typed.replace(",", ".")))
    return [{ text: text.trim(), start: index, end: index + text.length, low: low!, high: high!, letter }]
  })
  const asks: string[] = []
  const sure: (SaidTemperature & { letter: string })[] = []
  for (const { low, high, letter, ...where } of found) {
    if (!letter) asks.push(`“${where.text}”: °C or °F?`)
    else {
      const [lowC, highC] = [low, high].map((degrees) => (letter === "F" ? ((degrees - 32) * 5) / 9 : degrees))
      if (lowC! > highC!) asks.push(`“${where.text}” runs backwards: which is it?`)
      else sure.push({ ...where, letter, lowC: lowC!, highC: highC! })
    }
  }
  for (const { 0: text, 1: bare = "" } of sentence.matchAll(unitless))
    if (!found.some(({ text: other }) => other.startsWith(bare))) asks.push(`“${text.trim()}” has no unit: °C or °F?`)
  const gas = /\bgas (?:mark )?\d\b/i.exec(sentence)?.[0]
  if (gas && !sure.length) asks.push(`“${gas}”: what is that in °C or °F?`)
  return { sure: withoutRepeats(sentence, sure, asks), asks }
}

/** "475 °F / 245 °C" is said twice: the first counts where both agree, and where they do not it is asked which. */
function withoutRepeats(sentence: string, sure: (SaidTemperature & { letter: string })[], asks: string[]) {
  const kept: (SaidTemperature & { letter: string })[] = []
  for (const next of sure) {
    const last = kept.at(-1)
    const between = last && sentence.slice(last.end, next.start)
    const isPair =
      between !== undefined && last!.letter !== next.letter && /^[^\p{L}\d]*(?:or|and)?[^\p{L}\d]*$/iu.test(between)
    if (!last || !isPair) kept.push(next)
    else if (!agree(last, next)) {
      const inOther = showTemperature(last.lowC, next.letter === "F" ? "F" : "C")
      asks.push(`“${last.text}” and “${next.text}” do not agree: the first is ${inOther}. Which is meant?`)
      kept.pop()
    }
  }
  return kept.map(({ letter: _, ...temperature }) => temperature)
}

// Whole degrees of either scale, rounded: at most 0.5 °C and 0.5 °F apart. Ovens are rounded to 5 or 10 degrees: our own judgement.
const agree = (one: SaidTemperature, other: SaidTemperature) =>
  Math.abs(one.lowC - other.lowC) <= (one.lowC > 60 ? 8 : 0.5 + 5 / 18)
