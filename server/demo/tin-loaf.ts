import type { Stage } from "../dough/schedule.ts"
import type { FormulaContent } from "../formulas/content.ts"

export const title = "Oat and honey tin loaf"

/** Share of the dough's flour that comes with the levain: 117.5 g of 937.5 g, what stays in its jar taken off. */
export const levainShare = 0.125

const line = (quantity: string, ingredient: string, note = "") => ({
  quantity,
  readAs: "",
  ingredient,
  note,
  countsAs: "" as const,
})

const plain = { drivenByTemperature: false, handsOnMin: 0, cue: "", tip: "" }

const stages: Stage[] = [
  {
    ...plain,
    ...{ key: "feed", kind: "mix", name: "Feed the levain, soak the oats", lowMin: 10, highMin: 10, handsOnMin: 10 },
    cue: "No dry flour left in the jar; the oats are under water.",
    tip: "In the evening. Mark the levain's height with a rubber band, so that you know in the morning what it did.",
  },
  {
    ...plain,
    ...{ key: "ripen", kind: "rest", name: "Levain ripens, oats soak", lowMin: 540, highMin: 660 },
    cue: "Domed and just beginning to dimple in the middle; smells of yoghurt and apples.",
    tip: "If it has not doubled by morning, wait with the dough rather than hope.",
  },
  {
    ...plain,
    ...{ key: "mix", kind: "mix", name: "Mix the dough", lowMin: 15, highMin: 20, handsOnMin: 15 },
    cue: "An even dough that still sticks to the bowl. Take its temperature now.",
    tip: "Hold back the last 30 g of water; oats differ in how much they drink.",
  },
  {
    ...plain,
    ...{ key: "rest", kind: "rest", name: "Rest", lowMin: 30, highMin: 45 },
    cue: "It stretches a hand's width without tearing.",
  },
  {
    ...plain,
    ...{ key: "bulk", kind: "bulk", name: "Bulk", lowMin: 270, highMin: 360, handsOnMin: 10 },
    ...{ drivenByTemperature: true, referenceC: 24 },
    cue: "Up by two fifths in the straight jar, domed at the rim, a few bubbles under the skin.",
    tip: "Fold twice in the first hour and a half. Fill a small straight jar with dough: the bowl deceives. The times are for 24 °C; in a cold kitchen believe the jar.",
  },
  {
    ...plain,
    ...{ key: "shape", kind: "shape", name: "Divide and shape", lowMin: 20, highMin: 30, handsOnMin: 20 },
    cue: "Two tight logs, seam down, as long as the tin.",
    tip: "Wet hands instead of more flour.",
  },
  {
    ...plain,
    ...{ key: "proof", kind: "proof", name: "Proof in the tin", lowMin: 75, highMin: 120 },
    ...{ drivenByTemperature: true, referenceC: 24 },
    cue: "A finger's breadth under the rim; a dent comes back slowly and only partly.",
    tip: "Oven on after the first hour: 230 °C.",
  },
  {
    ...plain,
    ...{ key: "bake", kind: "bake", name: "Bake", lowMin: 45, highMin: 50, handsOnMin: 5 },
    cue: "96 °C inside, and hollow when knocked on its base.",
    tip: "Honey browns early: down to 200 °C after a quarter of an hour.",
  },
  {
    ...plain,
    ...{ key: "cool", kind: "cool", name: "Cool", lowMin: 90, highMin: 120 },
    cue: "No warmer than your hand.",
    tip: "Out of the tin at once, on a rack. Cut warm it looks gummy even when it is not.",
  },
]

/** The formula as first published. The amounts are our own. */
export const tinLoaf: FormulaContent = {
  about: "A soft loaf for the week: a fifth wholemeal, oats soaked overnight, just enough honey to taste.",
  pan: "Two tins, 21 × 11 cm and 9 cm deep",
  pieces: "2",
  pieceMass: "900 g",
  pieceTolerance: "± 10 g",
  measures: "metric",
  parts: [
    {
      ...{ key: "levain", name: "Levain", goesInto: "dough", staysPercent: "6" },
      lines: [
        line("30 g", "ripe starter"),
        line("90 g", "strong white flour"),
        line("20 g", "wholemeal wheat flour"),
        line("110 g", "water", "28 °C in winter"),
      ],
    },
    {
      ...{ key: "soaker", name: "Oat soaker", goesInto: "dough", staysPercent: "" },
      lines: [
        line("110 g", "rolled oats"),
        line("190 g", "water", "boiling"),
        line("45 g", "honey"),
        line("18 g", "fine salt", "all of the dough's; it keeps the oats overnight"),
      ],
    },
    {
      ...{ key: "dough", name: "Final dough", goesInto: "", staysPercent: "" },
      lines: [
        line("655 g", "strong white flour"),
        line("165 g", "wholemeal wheat flour"),
        line("335–365 g", "water", "hold back the last of it"),
        line("30 g", "rapeseed oil"),
      ],
    },
  ],
  finishing: [line("1 tbsp", "rapeseed oil", "for the two tins"), line("4 tbsp", "rolled oats", "on top")],
  variants: [
    {
      ...{ key: "white", name: "All white", about: "For those whose wholemeal runs out: a little drier, rises more." },
      swaps: [{ part: "dough", insteadOf: "wholemeal wheat flour", lines: [line("155 g", "strong white flour")] }],
      times: [],
    },
    {
      ...{
        key: "butter",
        name: "Butter instead of oil",
        about: "Softer crumb; work it in once the dough holds together.",
      },
      swaps: [{ part: "dough", insteadOf: "rapeseed oil", lines: [line("36 g", "unsalted butter, soft")] }],
      times: [],
    },
    {
      ...{
        key: "yeast",
        name: "With yeast",
        about: "For anyone whose levain is not ready: the same loaf in an afternoon.",
      },
      swaps: [
        {
          ...{ part: "levain", insteadOf: "" },
          lines: [
            line("4 g", "instant yeast"),
            line("99 g", "strong white flour"),
            line("19 g", "wholemeal wheat flour"),
            line("117 g", "water"),
          ],
        },
      ],
      times: [
        { stageKey: "ripen", lowMin: 60, highMin: 120 },
        { stageKey: "bulk", lowMin: 75, highMin: 90 },
        { stageKey: "proof", lowMin: 45, highMin: 60 },
      ],
    },
  ],
  stages,
}

/** What the instructor made of it after the first bakes, and how it differs. */
export const secondTinLoaf: FormulaContent = {
  ...tinLoaf,
  stages: stages.map((stage) => (stage.key === "proof" ? { ...stage, lowMin: 75, highMin: 105 } : stage)),
}
export const whatChanged = "A shorter proof: two hours were never needed."

/** How much the dough gains before it is shaped, in the instructor's eyes. */
export const targetRise = 0.4
