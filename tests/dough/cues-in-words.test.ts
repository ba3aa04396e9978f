import { expect, test } from "vitest"
import { cueWords } from "../../server/dough/verdict/cue-words.ts"
import { type CueKey, cues } from "../../server/dough/verdict/cues.ts"
import { cuesInWords } from "../../server/dough/verdict/cues-in-words.ts"

const keysIn = (text: string) => cuesInWords(text).map(({ key }) => key)

test.each([
  ["It flattened at once on the parchment.", ["spread-when-turned-out"]],
  ["A gummy line at the bottom", ["gummy-line"]],
  ["deflated when scored", ["deflated"]],
  ["did not rise at all", ["no-rise"]],
  ["Sticky, and it clung to the basket", ["sticky-dough", "stuck-to-the-basket"]],
  ["No oven spring, and the cuts never opened.", ["no-spring", "cuts-stayed-shut"]],
  ["The starter had sunk back, the dough was soupy by morning", ["levain-sunken", "slack-at-the-end"]],
  ["Burst along the side, dense in the middle with a few big holes", ["burst", "dense-middle", "caverns"]],
  ["Too salty, but a lovely open crumb", ["open-and-even", "too-salty"]],
  ["I forgot about it and it ran over the edge of the tin", ["stood-too-long", "ran-over-the-edge"]],
  ["The oven wasn't hot yet", ["oven-not-hot"]],
  ["We cut it while it was still warm", ["cut-warm"]],
  ["Sides caved in as it cooled", ["sides-pulled-in"]],
  ["Great oven spring and a beautiful ear", ["great-spring", "good-ear"]],
  ["It tore while shaping and I had to reshape it", ["torn-at-the-bench"]],
] as [string, CueKey[]][])("%s", (text, expected) => {
  expect(keysIn(text)).toEqual(expect.arrayContaining(expected))
})

test.each([
  ["It did not spread when turned out", "spread-when-turned-out"],
  ["The crumb was not gummy", "gummy-crumb"],
  ["It never deflated", "deflated"],
  ["No big holes", "caverns"],
  ["It wasn't dense", "dense"],
  ["without a gummy line", "gummy-line"],
  ["wider than tall", "tall"],
  ["The starter was less lively than usual", "levain-lively"],
] as [string, CueKey][])("denied: %s", (text, key) => {
  expect(keysIn(text)).not.toContain(key)
})

test("what is said of the levain is not said of the dough", () => {
  expect(keysIn("The starter did not rise at all")).not.toContain("no-rise")
  expect(keysIn("The starter did not rise, the dough was airy")).toEqual(["levain-sluggish", "airy"])
  expect(cuesInWords("went past its peak and fell", "levain").map(({ key }) => key)).toEqual(["levain-sunken"])
})

test("what the book or somebody else said is left aside", () => {
  expect(keysIn("The book says it should have doubled")).toEqual([])
  expect(keysIn("Another member got flat discs")).toEqual([])
})

test("each comes with the words it was found in, in the order in which it shows", () => {
  expect(cuesInWords("Gummy crumb; the dough was sticky")).toEqual([
    { key: "sticky-dough", words: "the dough was sticky" },
    { key: "gummy-crumb", words: "Gummy crumb" },
  ])
})

test("says nothing of words that tell nothing, and stands any text", () => {
  expect(keysIn("We baked on Saturday and ate it with soup on Sunday.")).toEqual([])
  expect(keysIn("")).toEqual([])
  expect(() => keysIn("🍞 ".repeat(5000) + "not ".repeat(5000))).not.toThrow()
})

test("every cue has its words", () => {
  expect(Object.keys(cueWords).toSorted()).toEqual(Object.keys(cues).toSorted())
})
