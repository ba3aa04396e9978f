/** A length of time found in a sentence, in minutes, with the words it was read from. */
export type SaidDuration = {
  text: string
  start: number
  end: number
  lowMin: number
  highMin: number
  /** "about", "at least", "up to", as it was written; "" for neither. */
  hedge: string
}

const words: Record<string, number> = Object.fromEntries(
  "one two three four five six seven eight nine ten eleven twelve"
    .split(" ")
    .map((word, index) => [word, index + 1] as [string, number])
    .concat([["an", 1] as [string, number], ["a", 1] as [string, number]]),
)
const glyphs: Record<string, number> = { "½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3 }

const number = String.raw`(?:\d{1,4}(?:[.,]\d{1,2})?(?: ?[½¼¾⅓⅔]| \d\/\d)?|[½¼¾⅓⅔]|\d\/\d|\b(?:an?|${Object.keys(words).join("|")})\b)`
const unit = String.raw`(?:hours?|hrs?\.?|h|minutes?|mins?\.?|min|m|days?|d)`
const single = String.raw`${number}[- ]?${unit}(?:(?: and | |, )?${number}[- ]?${unit}|(?<=h)[0-5]\d|(?<=h) [0-5]\d(?= ?(?:$|[-–—,.;:)]|to\b|or\b)))?`
const dash = "(?: ?(?:-|–|—|to|or) ?)"
const half = "(?:half|(?:a|three)[- ]quarters?(?: of)?|quarter of|a quarter of) an hour"
const andHalf = `${number} ?(?:hours?|h|days?) and a half`
const pattern = new RegExp(
  String.raw`(?<![\d.,:/\p{L}])(?:${andHalf}|${half}|${single}${dash}${single}|${number}${dash}${single}|${single})(?![\d\p{Ll}])`,
  "gu",
)

// "every 30 minutes" and "after the first hour" are points within a stage, not its length.
const withinBefore =
  /(?:\bevery|\beach|\bafter(?: the)?(?: first| last)?|\b(?:the |in the |for the )(?:first|last|final)|\bwithin|\bin|\bhands?[- ]on(?: time)?(?: for|:)?|\bat the)\s*(?:about |another )?$/i
const withinAfter = /^\s*(?:before|beforehand|ahead|earlier|later|old|intervals?|apart|in advance|prior|from now)\b/i
const hedged =
  /\b(about|around|approximately|approx\.?|roughly|at least|at most|up to|a good|some|or so|maximum|minimum)\s*$/i

/**
 * The lengths of time in a sentence: "4–5 hours", "1 h 30", "an hour and a half", "45 to 60 min". A range stays one. What
 * repeats ("every 30 minutes"), lies within a stage ("after 20 minutes") or before something is none, nor is a time of
 * day. Never throws.
 */
export function durationsIn(sentence: string): SaidDuration[] {
  const plain = sentence.replace(/[\u2010\u2011\u2212]/g, "-").replace(/[\u00a0\u2009\u202f]/g, " ")
  // "40minSalt": the unit may be glued to a capital, but not to the rest of its own word
  const parted = plain.replace(/(?<=\p{Ll})\p{Lu}/gu, "·").toLowerCase()
  const lower = parted.length === plain.length ? parted : plain
  return [...lower.matchAll(pattern)].flatMap(({ 0: text, index }) => {
    const [before, after] = [lower.slice(0, index), lower.slice(index + text.length)]
    if (withinBefore.test(before) || withinAfter.test(after)) return []
    const range = rangeIn(text)
    if (!range || range.highMin === 0 || range.lowMin > range.highMin) return []
    const hedge = hedged.exec(before)?.[1] ?? /^ (or more|or so)\b/.exec(after)?.[1] ?? ""
    return [
      { text: sentence.slice(index, index + text.length), start: index, end: index + text.length, hedge, ...range },
    ]
  })
}

function rangeIn(text: string): { lowMin: number; highMin: number } | undefined {
  const exactly = (min: number) => ({ lowMin: min, highMin: min })
  if (text.includes("an hour") && /half|quarter/.test(text) && !/hour and a half/.test(text))
    return exactly(/three/.test(text) ? 45 : text.startsWith("half") ? 30 : 15)
  if (text.endsWith(" and a half")) {
    const [, count = "", one = ""] = new RegExp(`^(${number}) ?(\\w+) and`, "u").exec(text) ?? []
    return exactly((numberOf(count) + 0.5) * minutesPer(one))
  }
  const ends = text.split(new RegExp(dash, "u")).filter((end) => end.trim())
  const last = ends.at(-1)!
  const high = minutesIn(last)
  if (ends.length === 1) return high === undefined ? undefined : exactly(high)
  // the lower end takes the unit of the upper one
  const low = minutesIn(ends[0]!) ?? numberOf(ends[0]!) * minutesPer(lastUnit(last))
  return high === undefined ? undefined : { lowMin: low, highMin: high }
}

/** "1 h 30 min", "1h30"; undefined for a number without a unit. */
function minutesIn(text: string): number | undefined {
  const pieces = [...text.matchAll(new RegExp(`(${number})[- ]?(${unit})?`, "gu"))].filter(({ 0: all }) => all.trim())
  if (!pieces[0]?.[2]) return undefined
  return pieces.reduce((total, { 1: count = "", 2: one }) => total + numberOf(count) * (one ? minutesPer(one) : 1), 0)
}

const lastUnit = (text: string) => [...text.matchAll(new RegExp(`${number}[- ]?(${unit})`, "gu"))][0]?.[1] ?? "min"
const minutesPer = (word: string) => (word.startsWith("d") ? 1440 : word.startsWith("h") ? 60 : 1)

function numberOf(text: string): number {
  const typed = text.trim()
  if (words[typed]) return words[typed]
  const [, whole = "", glyph = "", top, bottom] = /^(\d+(?:[.,]\d+)?)? ?([½¼¾⅓⅔])?(?:(\d)\/(\d))?$/.exec(typed) ?? []
  // "1/2" alone would read as 1 and nothing
  if (/^\d\/\d$/.test(typed)) return share(typed.charAt(0), typed.charAt(2))
  return Number((whole || "0").replace(",", ".")) + (glyphs[glyph] ?? 0) + (top && bottom ? share(top, bottom) : 0)
}

const share = (top: string, bottom: string) => (Number(bottom) ? Number(top) / Number(bottom) : 0)
