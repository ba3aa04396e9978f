import type { Range } from "../amounts.ts"

/**
 * What a baker's quantity says: a mass in grams, a share of the total flour (0.02 = 2 %),
 * or nothing we can read, with one plain sentence to show beside the line.
 */
export type Quantity =
  | { kind: "mass"; g: Range }
  | { kind: "percent"; share: Range }
  | { kind: "unread"; why: string }
  | { kind: "blank" }

// International avoirdupois pound and its sixteenth, exact: NIST Handbook 44, Appendix C; NIST SP 811, Appendix B.
export const gramsPerPound = 453.59237
export const gramsPerOunce = gramsPerPound / 16

const gramsPer = { kg: 1000, lb: gramsPerPound, oz: gramsPerOunce, g: 1 }
type MassUnit = keyof typeof gramsPer
type Unit = MassUnit | "%"
const largestFirst = Object.keys(gramsPer)

const unitWords: [Unit, RegExp][] = [
  ["g", /^(g|gr|gm|gms|gram|grams|gramme|grammes)$/],
  ["kg", /^(kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes)$/],
  ["oz", /^(oz|ounce|ounces)$/],
  ["lb", /^(lb|lbs|pound|pounds)$/],
  ["%", /^(%|percent|per cent|pct)$/],
]

// Beyond these a slip of unit is likelier than a real formula. Our own limits, no published source.
const mostG = 10_000_000
const mostShare = 10
const longest = 60

const notYet = "Volumes and counts are not read yet; give grams, kilograms, ounces, pounds or % of flour."

type Term = { number: string; value: number; unit: Unit | "" }
type Amount = { terms: Term[] } | { why: string }

/**
 * Reads one quantity as a baker writes it: "468 g", "2,5 kg", "1 200 g", "1 lb 4 oz", "1 1/2 lb", "½ oz", "2 %",
 * "60–90 g", "60 to 90 g", "about 500 g". A whole or decimal number without a unit is grams, because bakers weigh in
 * grams; a bare fraction is asked about. Never throws: what cannot be read, or could be read in two ways, comes back as
 * "unread" with a sentence, and blank text as "blank".
 */
export function readQuantity(text: string): Quantity {
  const typed = tidy(text)
  if (typed === "") return { kind: "blank" }
  if (typed.length > longest) return unread("That is too long for an amount; put remarks into the note.")
  if (/^[-–—]/.test(typed)) return unread("An amount cannot be negative.")
  const ends = typed.split(/ ?[-–—] ?| to /)
  if (ends.length > 2) return unread("Give one amount, or one range such as 60–90 g.")

  const amounts = ends.map(readAmount)
  const failed = amounts.find((amount) => "why" in amount)
  if (failed) return unread(failed.why)
  const [low = [], high = low] = amounts.map((amount) => ("terms" in amount ? amount.terms : []))
  return rangeOf(lendUnit(low, high), lendUnit(high, low))
}

const unread = (why: string): Quantity => ({ kind: "unread", why })

/** One kind of space, dash, slash and letter case; "1½" becomes "1 1/2"; a leading "about" goes. */
function tidy(text: string) {
  return text
    .replace(/[¼-¾⅐-⅞]/g, " $&")
    .normalize("NFKC")
    .replace(/⁄/g, "/")
    .replace(/\u2212/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase()
    .replace(/^(about|approximately|approx\.?|circa|ca\.?|c\.|~|≈) ?/, "")
    .replace(/(%|percent) of (the )?(total )?flour$/, "%")
}

const number = String.raw`(?:\d+ )?\d+ ?/ ?\d+|\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?!\d)|\d+(?:[.,]\d+)?|[.,]\d+`
const termPattern = new RegExp(`(${number}) ?(%|per cent|[a-z]*)\\.?(?:,? (?:and )?|$)?`, "y")

/** The terms of one end of a range: "1 lb 4 oz" has two, "500 g" one. */
function readAmount(text: string): Amount {
  const terms: Term[] = []
  termPattern.lastIndex = 0
  while (termPattern.lastIndex < text.length) {
    const match = termPattern.exec(text)
    if (!match) return { why: notYet }
    const [, written = "", word = ""] = match
    const unit = word === "" ? "" : unitWords.find(([, pattern]) => pattern.test(word))?.[0]
    if (unit === undefined) return { why: notYet }
    const value = numberOf(written)
    if (written.includes("/") && !Number.isFinite(value)) return { why: "A fraction cannot have 0 below the line." }
    const question = doubt(written, unit)
    if (question) return { why: question }
    terms.push({ number: written, value, unit })
  }
  return terms.length ? { terms } : { why: notYet }
}

function numberOf(written: string) {
  const fraction = /^(?:(\d+) )?(\d+) ?\/ ?(\d+)$/.exec(written)
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])
  return Number(written.replace(/ /g, "").replace(",", "."))
}

/** A question for a number that two bakers would read a thousandfold apart. */
function doubt(written: string, unit: Unit | "") {
  const grouped = /^([1-9]\d{0,2})([.,])(\d{3})$/.exec(written)
  if (!grouped) return undefined
  // "1.250 kg" is how scales print it; nobody weighs "1.250 g" of anything for bread.
  if (grouped[2] === "." && unit !== "g" && unit !== "") return undefined
  const [, whole, , rest] = grouped
  return `Is "${written}" ${whole}${rest} or ${Number(`${whole}.${rest}`)}? Write it without the separator.`
}

/** "60–90 g": an end written without a unit takes the other end's. */
function lendUnit(terms: Term[], other: Term[]): Term[] {
  const [only, second] = terms
  const lender = other.length === 1 ? other[0]?.unit : ""
  return only && !second && only.unit === "" && lender ? [{ ...only, unit: lender }] : terms
}

function rangeOf(lowTerms: Term[], highTerms: Term[]): Quantity {
  const low = sum(lowTerms)
  const high = sum(highTerms)
  if ("why" in low) return unread(low.why)
  if ("why" in high) return unread(high.why)
  if (low.percent !== high.percent) return unread("Give both ends of the range in the same kind of unit.")
  if (low.value > high.value)
    return unread("The range runs backwards; write the smaller amount first (and 1 1/2 without a dash).")
  const range = { low: low.value, high: high.value }
  if (!low.percent && high.value > mostG) return unread("That is more than ten tonnes; check the unit.")
  if (low.percent && high.value > mostShare) return unread("That is more than 1000 % of the flour; check it.")
  return low.percent ? { kind: "percent", share: range } : { kind: "mass", g: range }
}

function sum(terms: Term[]): { value: number; percent: boolean } | { why: string } {
  const [first] = terms
  if (terms.length === 1 && first?.unit === "%") return { value: first.value / 100, percent: true }
  if (terms.length === 1 && first?.unit === "") {
    if (first.number.includes("/")) return { why: `${first.number} of what? Add g, kg, oz, lb or %.` }
    return { value: first.value, percent: false }
  }
  const ranks = terms.map(({ unit }) => largestFirst.indexOf(unit))
  const ordered = ranks.every((rank, index) => rank >= 0 && (index === 0 || rank > (ranks[index - 1] ?? 0)))
  if (!ordered) return { why: "Give one amount with its unit, such as 500 g or 1 lb 4 oz." }
  const g = terms.reduce((total, { value, unit }) => total + value * gramsPer[unit as MassUnit], 0)
  return { value: g, percent: false }
}
