import type { Measures } from "../dough/quantity/reading.ts"
import { newKey, newLine, newPart, newStage, type TypedFormula, type TypedStage } from "./typed.ts"

/**
 * What a new formula starts from: a levain that goes into a final dough, and the stages of a levain loaf to correct.
 * Their times are common practice, no published source; cues and amounts are the instructor's to write.
 */
export function startingFormula(unit: "C" | "F", measures: Measures): TypedFormula {
  const dough = newKey()
  const lines = () => Array.from({ length: 5 }, newLine)
  return {
    ...{ title: "", about: "", measures, pieces: "", pieceMass: "", pieceTolerance: "", pan: "" },
    parts: [
      { ...newPart(), name: "Levain", goesInto: dough, lines: lines().slice(0, 3) },
      { ...newPart(), key: dough, name: "Final dough", lines: lines() },
    ],
    finishing: [],
    variants: [],
    stages: stages.map((stage) => ({
      ...newStage(),
      ...stage,
      reference: stage.driven ? { C: "24 °C", F: "75 °F" }[unit] : "",
    })),
  }
}

// The levain's own ripening is not driven here: what is driven counts as the dough's fermentation.
const stages: Partial<TypedStage>[] = [
  { kind: "mix", name: "Mix the levain", lasts: "10 min", handsOn: "10 min" },
  { kind: "rest", name: "Levain ripens", lasts: "5 – 8 h" },
  { kind: "mix", name: "Mix the dough", lasts: "15 min", handsOn: "15 min" },
  { kind: "bulk", name: "Bulk", lasts: "4 – 5 h", handsOn: "10 min", driven: "yes" },
  { kind: "shape", name: "Shape", lasts: "10 – 20 min", handsOn: "10 min" },
  { kind: "proof", name: "Proof", lasts: "1 – 2 h", driven: "yes" },
  { kind: "bake", name: "Bake", lasts: "40 – 50 min", handsOn: "5 min" },
  { kind: "cool", name: "Cool", lasts: "1 – 2 h" },
]
