/** What a levain has gained in its jar when it is ripe, and the words that say so. */
export type SaidRipe = { rise: number; words: string }

/**
 * How far a levain rises until it is ripe, from the words of its stage in English: "doubled", "risen by half", "tripled", "+80 %";
 * undefined where they do not say it. For a person to see and change.
 */
export function ripeInWords(...texts: string[]): SaidRipe | undefined {
  for (const text of texts)
    for (const [pattern, riseOf] of said) {
      const match = pattern.exec(text.normalize("NFKC"))
      const rise = match ? riseOf(match) : Number.NaN
      if (match && rise >= leastRise && rise <= mostRise) return { rise, words: match[0].trim() }
    }
  return undefined
}
// Outside these a number means something else. Our own limits.
const leastRise = 0.2
const mostRise = 4

const number = String.raw`(\d+(?:[.,]\d+)?)`
const numberIn = (text: string) => Number(text.replace(",", "."))
const said: [RegExp, (match: RegExpExecArray) => number][] = [
  [/\b(?:tripled?|trebled?|three times (?:its|the) (?:size|volume|height))\b/i, () => 2],
  [/\b(?:doubled?|twice (?:its|the) (?:size|volume|height))\b/i, () => 1],
  [
    /\b(?:risen|rise|rises|rose|up|grown|grows) by (?:about )?(?:a )?half\b|\bhalf (?:again|as much again)\b/i,
    () => 0.5,
  ],
  [/\b(?:risen|rise|rises|rose|up|grown|grows) by (?:about )?(?:three quarters|3\/4)\b/i, () => 0.75],
  [
    new RegExp(
      String.raw`(?:\+ ?|\b(?:risen|rise|rises|rose|up|grown|grows|gained) (?:by )?(?:about )?)${number} ?%`,
      "i",
    ),
    ([, n]) => numberIn(n!) / 100,
  ],
  [
    new RegExp(String.raw`\b${number} ?(?:times|×|x) (?:its|the) (?:size|volume|height)`, "i"),
    ([, n]) => numberIn(n!) - 1,
  ],
]
