import type { Remarks } from "./remarks.ts"
import type { Token } from "./tokens.ts"
import { type Asked, asks, type Draft, type Kitchen } from "./weighed.ts"

/** What is wrong with a line before its amounts are looked at, as a question; undefined when nothing is. */
export function objectTo(amounts: Token[], remarks: Remarks, kitchen: Kitchen): Asked | undefined {
  const rest = amounts.map(({ text }) => text).join(" ")
  const wholly = (label: string, text: string): Draft => ({
    label,
    edits: [{ start: 0, end: kitchen.text.length, text }],
  })
  if (amounts[0]?.is === "dash")
    return asks("An amount cannot be negative.", [wholly("without the dash", rest.slice(1))])
  const slip = letterForDigit(kitchen.text)
  if (slip) return asks("Is there a letter in place of a digit?", [wholly("with digits", slip)])
  if (amounts.some((token) => token.is === "number" && token.broken))
    return asks("A fraction cannot have 0 below the line.")
  if (remarks.foreign) return asks(`That looks like ${remarks.foreign}, not an amount.`)
  if (remarks.base) return asksOfWhat(remarks.base, wholly("of the flour", rest))
  if (remarks.partOf) return asksForWhole(remarks.partOf, kitchen)
  if (remarks.strength)
    return asks(`Is “${remarks.strength}” a kind of it, or its share of the flour?`, [wholly("of the flour", rest)])
  if (!amounts.some(({ is }) => is === "number")) return asks(withoutNumber(remarks))
  if (remarks.added)
    return asks("Does this belong to the formula, or was it added later?", [wholly("it belongs to it", rest)])
  if (remarks.upTo)
    return asks("From how much on?", [wholly("all of it", rest), wholly("from nothing", `0 to ${rest}`)])
  return undefined
}

/** "10O g", "l00 g"; an l after a digit is a litre. */
function letterForDigit(text: string) {
  if (!/\d[oO]|[lI][\doO]/.test(text)) return undefined
  const digits = text.replace(/\d[oO]+\b|\b[lI][\doO]+\b/g, (found) => found.replace(/o/gi, "0").replace(/[lI]/g, "1"))
  return digits === text ? undefined : digits
}

/** 2 % of the whole dough is more of the flour, and how much more only the whole formula tells. */
function asksOfWhat(base: string, ofFlour: Draft): Asked {
  if (/volume|height|size/i.test(base)) return asks(`A share of “${base}” is a rise, not an amount.`)
  return asks(`A percentage is of the flour here, and cannot be of “${base}”. What is it of the flour?`, [ofFlour])
}

function asksForWhole({ part, of }: NonNullable<Remarks["partOf"]>, { text }: Kitchen): Asked {
  const percent = part.is === "number" && /^(of )?the (total )?flour$/i.test(of) ? part.value.mul(100).valueOf() : 0
  const ofFlour = {
    label: "of the flour",
    edits: [{ start: 0, end: text.length, text: `${Number(percent.toFixed(4))} %` }],
  }
  return asks(`How much is ${part.text} ${of}? Give grams, or a percentage of the flour.`, percent ? [ofFlour] : [])
}

function withoutNumber({ loose }: Remarks) {
  if (loose) return `“${loose.text}” has no weight. Give grams, a percentage of the flour, or leave it blank.`
  return "There is no number in this. Write the amount like 250 g, 1 1/2 cups, 2 eggs or 2 %."
}
