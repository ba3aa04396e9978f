import fc from "fast-check"
import { countsAsNames } from "../../server/dough/ingredients/counts-as.ts"
import { stageKinds } from "../../server/dough/schedule.ts"
import type { FormulaContent } from "../../server/formulas/content.ts"

const odd = [
  "</script><b>",
  "=1+1",
  "  -2.5",
  "'=x",
  "“½”",
  'say "no", then',
  "@at",
  "\tx",
  "5 < 6 & 7",
  "ﬁ 🥖",
  "-2.5",
  "a;b",
  "&frac12;",
]
const words = (most = 40) =>
  fc.oneof(
    fc.constantFrom("", "water", "bread flour", "Levain", "until doubled", ...odd.map((text) => text.trim())),
    fc.string({ unit: "grapheme", maxLength: most }).map((text) => text.replace(/[\0\r\n]/g, "").trim()),
  )
const quantity = fc.oneof(
  fc.constantFrom("500 g", "1–1/2 tsp", "60–90 g", "2 %", "1 1/2 sticks", "2 large", "-2.5"),
  words(20),
)

const line = fc.record({
  quantity,
  readAs: fc.oneof(fc.constant(""), fc.constantFrom("9 fl oz", "120 g")),
  ingredient: words().map((text) => text || "salt"),
  note: words(),
  countsAs: fc.constantFrom("" as const, ...(Object.keys(countsAsNames) as (keyof typeof countsAsNames)[])),
})
const lines = fc.array(line, { maxLength: 5 })
const minutes = fc.integer({ min: 0, max: 1500 })
const range = fc
  .tuple(minutes, minutes)
  .map(([one, other]) => ({ lowMin: Math.min(one, other), highMin: Math.max(one, other) }))

const stage = (key: string) =>
  fc.record({
    key: fc.constant(key),
    kind: fc.constantFrom(...stageKinds),
    name: words().map((text) => text || "Stage"),
    drivenByTemperature: fc.boolean(),
    handsOnMin: fc.integer({ min: 0, max: 60 }),
    cue: words(),
    tip: words(),
  })

/** Formulas of any kind: parts in parts, variants, stages, and texts that break other files. */
export const formulas: fc.Arbitrary<FormulaContent> = fc
  .record({
    about: words(200),
    measures: fc.constantFrom("us" as const, "us-label" as const, "metric" as const, "imperial" as const),
    pieces: fc.constantFrom("", "2", "12"),
    pieceMass: fc.constantFrom("", "900 g"),
    pieceTolerance: fc.constantFrom("", "± 5 g"),
    pan: words(),
    names: fc.array(words(), { minLength: 1, maxLength: 4 }),
    stays: fc.constantFrom("", "6", "45 g"),
    finishing: lines,
    ways: fc.array(
      words().map((text) => text || "Rye"),
      { maxLength: 2 },
    ),
    stages: fc.integer({ min: 0, max: 5 }),
  })
  .chain(({ names, stays, ways, stages, ...content }) =>
    fc
      .tuple(
        fc.tuple(...names.map(() => lines)),
        fc.tuple(...ways.map(() => lines)),
        fc.tuple(
          ...Array.from({ length: stages }, (_, at) =>
            fc.tuple(stage(`s${at}`), range, fc.option(fc.double({ min: -5, max: 50, noNaN: true }))),
          ),
        ),
      )
      .map(([listed, swapped, staged]) => ({
        ...content,
        parts: names.map((name, at) => ({
          key: `p${at}`,
          name,
          goesInto: at === names.length - 1 ? "" : `p${at + 1}`,
          staysPercent: at === names.length - 1 ? "" : stays,
          lines: listed[at]!,
        })),
        variants: ways.map((name, at) => ({
          ...{ key: `v${at}`, name, about: name },
          swaps: [{ part: "p0", insteadOf: "water", lines: swapped[at]! }],
          times: stages ? [{ stageKey: "s0", lowMin: 0, highMin: 5 }] : [],
        })),
        stages: staged.map(([one, length, referenceC]) => ({
          ...one,
          ...length,
          ...(referenceC === null ? {} : { referenceC: referenceC === 0 ? 0 : referenceC }),
        })),
      })),
  )
