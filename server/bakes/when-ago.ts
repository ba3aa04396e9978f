/** Minutes back from now, the same twice unless a range was said; `vague` for "a few", "a couple of" and for whole days. */
export type Ago = { lowMin: number; highMin: number; vague: boolean; days?: number }

const units: [RegExp, number][] = [
  [/^(?:s|secs?|seconds?)$/, 1 / 60],
  [/^(?:m|mins?|minutes?)$/, 1],
  [/^(?:h|hrs?|hours?)$/, 60],
  [/^(?:d|days?)$/, 24 * 60],
  [/^(?:w|weeks?)$/, 7 * 24 * 60],
]
const unit = "(s|secs?|seconds?|m|mins?|minutes?|h|hrs?|hours?|d|days?|w|weeks?)"
const amount = String.raw`(\d{1,4}(?:[.,]\d{1,2})?)`
const one = new RegExp(`^${amount} ?${unit}$`)
const two = new RegExp(`^${amount} ?${unit}(?: and)? ?${amount} ?${unit}?$`)
const range = new RegExp(`^(?:between )?${amount}(?: ?${unit})? ?(?:-|to|or|and) ?${amount} ?${unit}$`)

/** What stands before "ago": "40 min", "1 h 20", "an hour and a half", "30 to 40 minutes"; undefined when it is no time. */
export function readAgo(words: string): Ago | undefined {
  const plain = inFigures(words)
  const vague = plain !== inFigures(words, false)
  const between = range.exec(plain)
  if (between) {
    const [, low, lowUnit, high, highUnit] = between
    const ends = [minutes(low!, lowUnit ?? highUnit!), minutes(high!, highUnit!)]
    return { lowMin: Math.min(...ends), highMin: Math.max(...ends), vague: false }
  }
  const [, first, firstUnit, second, secondUnit] = two.exec(plain) ?? one.exec(plain) ?? []
  if (!first || !firstUnit) return undefined
  const rest = second ? minutes(second, secondUnit ?? "min") : 0
  const min = minutes(first, firstUnit) + rest
  const wholeDays = /^[dw]/.test(firstUnit) && !second && Number.isInteger(min / dayMin)
  return { lowMin: min, highMin: min, vague: vague || wholeDays, ...(wholeDays ? { days: min / dayMin } : {}) }
}
const dayMin = 24 * 60

const minutes = (text: string, of: string) =>
  Number(text.replace(",", ".")) * units.find(([pattern]) => pattern.test(of))![1]

/** Number words as figures: "half an hour" is "30 min". A couple is two and a few are three, unless those are to be left. */
function inFigures(words: string, withVague = true): string {
  const plain = words
    .replace(/\b(?:three|3) quarters of an hour\b/, "45 min")
    .replace(/\b(?:a )?quarter of an hour\b/, "15 min")
    .replace(/\bhalf (?:an )?hour\b/, "30 min")
    .replace(/\b(?:a|an|one) (hour|day|week) and a half\b/, "1.5 $1")
    .replace(/\b(\w+) (hours|days) and a half\b/, "$1 and a half $2")
    .replace(/\b(\w+) and a half\b/, (_, count: string) => `${figure(count)}.5`)
  const counted = withVague ? plain.replace(/\ba couple(?: of)?\b/, "2").replace(/\ba few\b/, "3") : plain
  return counted
    .replace(/\b(twenty|thirty|forty|fifty)[ -](\w+)\b/g, (both, tens: string, ones: string) =>
      Number(figure(ones)) < 10 ? String(Number(figure(tens)) + Number(figure(ones))) : both,
    )
    .replace(/\b[a-z]+\b/g, (word) => figure(word))
}

const numbers: Record<string, number> = {
  ...{ a: 1, an: 1, one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8, nine: 9, ten: 10 },
  ...{ eleven: 11, twelve: 12, fifteen: 15, twenty: 20, thirty: 30, forty: 40, fifty: 50, ninety: 90 },
}
const figure = (word: string) => (Object.hasOwn(numbers, word) ? String(numbers[word]) : word)
