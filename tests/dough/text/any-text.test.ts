import { expect, test } from "vitest"
import { readText } from "../../../server/dough/text/read-text.ts"

/** The same row of random numbers from 0 to 1 each time: mulberry32, public domain. */
function randomRow(seed: number) {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

const listed = (list: string) => list.split("|")
const starts = listed("|||1. |2) |- |• |▢ |Step 3: |## |**|For the |  |\t|(|“|*|Tip: |Done when ")
const pieces = listed(
  "500 g|1 1/2 cups|2|½|bread flour|water|salt|levain|Levain|Final dough|filling|Ingredients|Method:|Notes|Makes 2 loaves|" +
    "mix|Bake|let rise|until doubled|overnight|4–5 h|45 min|every 30 minutes|an hour and a half|1h30|5:10-9:10|24 °C|475°F/245°C|" +
    "350 degrees|23 °C and 75 °F|gas mark 7|fridge|shape|then|, |. |:|; |(|)|&|<b>|https://example.org/a|Licence: CC BY|~|±|=1+1|" +
    "goes into Final dough|6 % stays in its jar|\u00a0|ﬁ|🥖|Ä|\ud83d|warmer is quicker|hands on for 10 min|(bulk)|by Jo|From Mill",
)

function randomTexts(seed: number) {
  const random = randomRow(seed)
  const upTo = (most: number) => Math.floor(random() * most)
  const one = (list: string[]) => list[upTo(list.length)]!
  const letter = () => String.fromCodePoint(random() < 0.6 ? 32 + upTo(95) : upTo(0x3000))
  const line = () =>
    random() < 0.1
      ? ""
      : random() < 0.8
        ? one(starts) + Array.from({ length: 1 + upTo(7) }, () => one(pieces)).join(random() < 0.9 ? " " : "")
        : Array.from({ length: upTo(30) }, letter).join("")
  return () => Array.from({ length: 20 }, line).join("\n")
}

/** Letters and digits, each written in its plainest form, as often as they come. */
const lettersOf = (text: string) => [...(text.normalize("NFKC").match(/[\p{L}\p{N}]/gu) ?? [])].length

// 1000 texts are 20 000 lines, which take a while
const texts = Number(process.env.TEXTS ?? 200)

test("of thousands of lines of any kind none is lost and none throws", () => {
  const text = randomTexts(6)
  for (let times = 0; times < texts; times++) {
    const pasted = text()
    const { told } = readText(pasted)
    const lines = pasted.split(/[\n\r\u2028\u2029]/).map((line) => line.trim())
    expect(told.map((line) => line.text)).toEqual(lines.filter((line) => line !== ""))
  }
})

test("every line that was taken for something is in what was made of it, letter for letter", () => {
  const text = randomTexts(7)
  for (let times = 0; times < texts; times++) {
    const pasted = text()
    const { title, about, credits, makes, parts, finishing, steps, told } = readText(pasted)
    const kept = [title, ...about, ...credits, ...Object.values(makes)]
    const lines = [
      ...parts.flatMap((part) => [part.name, part.stays, ...part.lines.map(words)]),
      ...finishing.map(words),
    ]
    const stages = steps.flatMap(({ name, kind, cue, tip, text }) => [name, kind, cue, tip, text])
    const made = lettersOf([...kept, ...lines, ...stages].join(" "))
    const taken = told.filter(({ is }) => is === "line" || is === "step").map(({ text }) => withoutMarks(text))
    expect(made, pasted).toBeGreaterThanOrEqual(lettersOf(taken.join(" ").replace(/\bof\b/gi, "")))
  }
})

const words = ({ quantity, ingredient, note }: { quantity: string; ingredient: string; note: string }) =>
  `${quantity} ${ingredient} ${note}`
const withoutMarks = (line: string) =>
  line.replace(/^\W*(?:(?:step|stage)\s*\d{1,2}\W*|\(?\d{1,2}[.)]\s*|\W+)*/i, "").replace(/^(?:tips?|done when)\b/i, "")

/** Patterns that backtrack would take minutes over these. */
test.each([
  "1 ",
  "a ",
  "1-",
  "(",
  "**",
  "for the ",
  "until ",
  "1 h ",
  "24 °C ",
  "mix ",
  "to ",
  ", then ",
  "an hour ",
  "- ",
  ". A",
  "=",
  "½",
])("%j, over and over, is answered at once", (piece) => {
  const started = performance.now()
  expect(readText(`Title\n${piece.repeat(Math.floor(30_000 / piece.length))}`).told).toHaveLength(2)
  if (performance.now() - started > 5000) throw new Error(`${performance.now() - started} ms`)
})
