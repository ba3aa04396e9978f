import Fraction from "fraction.js"

/** A number as people type it: "3/4", "1 200", "1,250.5", "2,5", ".5"; the source of a regular expression. */
export const numberPattern = [
  String.raw`\d+ ?/ ?\d+`,
  String.raw`\d{1,3}(?:[ '’]\d{3})+(?:[.,]\d+)?(?!\d)`,
  String.raw`\d{1,3}(?:,\d{3})+\.\d+`,
  String.raw`\d{1,3}(?:\.\d{3})+,\d+`,
  String.raw`\d{1,3}(?:,\d{3}){2,}(?!\d)`,
  String.raw`\d{1,3}(?:\.\d{3}){2,}(?!\d)`,
  String.raw`\d+(?:[.,]\d+)?`,
  String.raw`[.,]\d+`,
].join("|")

/** Its exact value; undefined with a 0 below the line. Takes what numberPattern matches. */
export function exactNumber(written: string): Fraction | undefined {
  if (/^\d{1,9}$/.test(written)) return new Fraction(Number(written))
  const [above = "", below] = written.split("/").map((digits) => digits.trim())
  if (below === undefined) return new Fraction(plainDecimal(above))
  return /^0+$/.test(below) ? undefined : new Fraction(BigInt(above), BigInt(below))
}

/** The last of two kinds of separator, or a single one, marks the decimals; the rest only group the digits. */
function plainDecimal(written: string) {
  const separators = written.match(/[.,]/g) ?? []
  const decimal = new Set(separators).size === 2 || separators.length === 1 ? separators.at(-1) : undefined
  const [whole = "", decimals = "0"] = decimal ? written.split(new RegExp(`\\${decimal}(?=\\d*$)`)) : [written]
  return `${whole.replace(/\D/g, "") || "0"}.${decimals}`
}

/** What makes a number worth a question, and the ways to write what may be meant. */
export type NumberDoubt = { question: string; readings: { text: string; label: string }[] }

/** What a unit is to a number: weighed on a scale in small units, filled and levelled or counted, or something else. */
export type NumberUse = "small" | "kitchen" | "other"

/** A question for a number that two bakers would read differently; undefined for a plain one. */
export function doubtAbout(written: string, use: NumberUse): NumberDoubt | undefined {
  return groupedDoubt(written, use) ?? slipDoubt(written, use) ?? fractionDoubt(written)
}

/** "1,000 g": a thousand, or one? "1.250 kg" is how scales print it, but nobody weighs "1.250 g" for bread. */
function groupedDoubt(written: string, use: NumberUse): NumberDoubt | undefined {
  const grouped = /^([1-9]\d{0,2})([.,])(\d{3})$/.exec(written)
  if (!grouped || (grouped[2] === "." && use !== "small")) return undefined
  const [, whole, , rest] = grouped
  const decimal = String(Number(`${whole}.${rest}`))
  return {
    question: `Is “${written}” ${whole}${rest} or ${decimal}? Write it without the separator.`,
    // a fourth decimal keeps it from looking like a group of three
    readings: [
      { text: `${whole}${rest}`, label: `${whole}${rest}` },
      { text: `${whole}.${rest}0`, label: decimal },
    ],
  }
}

const halvings = [2, 3, 4, 8]

/** "1.2 cup": cups and spoons are halved and quartered, so a point was likelier meant to be a fraction's line. */
function slipDoubt(written: string, use: NumberUse): NumberDoubt | undefined {
  const [, above, below] = /^(\d)[.,](\d)$/.exec(written) ?? []
  if (use !== "kitchen" || !above || !below || !halvings.includes(Number(below))) return undefined
  const value = new Fraction(Number(above), Number(below))
  if (value.compare(1) >= 0 || value.compare(0) <= 0 || value.d !== BigInt(below)) return undefined
  const exact = new Fraction(plainDecimal(written)).toFraction(true)
  return {
    question: `Is “${written}” ${above}/${below}, or ${exact}?`,
    readings: [
      { text: `${above}/${below}`, label: `${above}/${below}` },
      { text: exact, label: written },
    ],
  }
}

const kitchenParts = [2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 32, 64]

/** "11/2" has likely lost the space of 1 1/2 on its way here; "375/400" is likely two amounts. */
function fractionDoubt(written: string): NumberDoubt | undefined {
  const [, digits, parts] = /^(\d+) ?\/ ?(\d+)$/.exec(written) ?? []
  if (!digits || !parts) return undefined
  const [above, below] = [Number(digits), Number(parts)]
  const usual = kitchenParts.includes(below)
  if (usual && (above < below || digits.length === 1)) return undefined
  const readings = usual
    ? [...withItsSpace(digits, parts), asMixed(above, below)]
    : above < below
      ? [asRange(written)]
      : []
  const meant = readings.map(({ label }) => label).join(" or ")
  return { question: `Is “${written}” one fraction?${meant && ` It may be ${meant}.`}`, readings }
}

function withItsSpace(digits: string, parts: string) {
  const lastTwo = Number(digits.slice(-2))
  const cut = digits.length - (digits.length > 2 && lastTwo >= 10 && lastTwo < Number(parts) ? 2 : 1)
  const [whole, above] = [digits.slice(0, cut), digits.slice(cut)]
  if (Number(above) >= Number(parts) || !(Number(above) > 0)) return []
  return [plainReading(`${whole} ${Number(above)}/${parts}`)]
}

const asMixed = (above: number, below: number) => plainReading(new Fraction(above, below).toFraction(true))
const asRange = (written: string) => plainReading(written.replace(/ ?\/ ?/, " to "))
const plainReading = (text: string) => ({ text, label: text })
