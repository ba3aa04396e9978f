import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import type { Read } from "../dough/readings.ts"

const number = String.raw`(\d{1,5}(?:[.,]\d{1,4})?)`
const between = ` ?g?(?: ?[:/+] ?| )`
const three = new RegExp(`^${number}${between}${number}${between}${number} ?g?$`, "i")

/** A feeding in parts or grams: "1 : 3 : 3", "1:5:5", "20 g + 40 g + 40 g"; starter, flour and water. */
export function readFeeding(text: string): Read<Ratio> {
  const match = three.exec(text.normalize("NFKC").replace(/\s+/g, " ").trim())
  if (!match) return { error: "Give starter, flour and water, such as 1 : 3 : 3." }
  const [starter, flour, water] = match.slice(1).map((part) => Number(part.replace(",", "."))) as [
    number,
    number,
    number,
  ]
  if (!(starter > 0)) return { error: "Without starter it does not ripen." }
  const parts = flour / starter
  return parts >= leastFlour && parts <= mostFlour && water / starter <= mostFlour
    ? { value: { starter, flour, water } }
    : { error: "Nobody feeds a levain like that; check the three numbers." }
}
// From a fifth of the starter to a hundred times as much, wide on purpose. Our own limits.
const leastFlour = 0.2
const mostFlour = 100
