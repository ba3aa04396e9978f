import type { Stage } from "../server/dough/schedule.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { tinLoaf } from "./class-day.ts"

const line = (quantity: string, ingredient: string, note = "") => ({
  ...{ quantity, readAs: "", ingredient, note, countsAs: "" as const },
})

const kinds: Stage["kind"][] = ["mix", "rest", "bulk", "fold", "divide", "shape", "proof", "retard", "bake", "cool"]
const longCue =
  "The dough has grown by half, its edge is domed against the bowl, bubbles show under the skin, and a floured finger leaves a dent that comes slowly and only partly back when it is pressed in beside the middle"

/** As much as a formula may have and still be one page: 5 parts, 25 lines, 15 stages with long cues, and every caution. */
export const bigFormula: FormulaContent = {
  ...tinLoaf,
  about:
    "A festive loaf of many flours for a long weekend, with egg, milk and honey in it and seeds, ham and cheese on top.",
  parts: [
    ...["Rye levain", "Wheat levain", "Seed soaker", "Scald"].map((name, at) => ({
      ...{ key: `part${at}`, name, goesInto: "dough", staysPercent: "2" },
      lines: [
        line(`${80 + at} g`, "wholemeal rye flour from the mill by the river"),
        line("95–110 g", "water", "warm"),
        line("20 g", at < 2 ? "ripe starter" : "sunflower seeds"),
        line("1/2 tsp", "caraway seeds"),
      ],
    })),
    {
      ...{ key: "dough", name: "Final dough", goesInto: "", staysPercent: "" },
      lines: [
        ...[line("800 g", "strong bread flour"), line("400–460 g", "whole milk", "hold some of it back")],
        ...[line("2 large", "eggs"), line("60 g", "honey"), line("18 g", "salt"), line("45 g", "soft butter")],
      ],
    },
  ],
  finishing: [line("2 tbsp", "toasted sesame seeds"), line("120 g", "grated cheddar"), line("80 g", "smoked ham")],
  stages: Array.from({ length: 15 }, (_, at) => ({
    ...{ key: `stage${at}`, kind: kinds[at % 8]!, name: `${at + 1}. A stage with quite a long name` },
    ...{ lowMin: 40, highMin: 70, handsOnMin: 10, drivenByTemperature: at === 2, referenceC: 24.5 },
    ...{ cue: longCue, tip: "Warm your hands first, and keep the bench wet rather than floured." },
    ...(at === 13 ? { kind: "bake" as const } : at === 14 ? { kind: "cool" as const } : {}),
  })),
}
