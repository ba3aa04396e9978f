import { addBakeDay, type NewBakeDay } from "../server/bake-days/queries.ts"
import type { Db } from "../server/db.ts"
import type { Stage } from "../server/dough/schedule.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { addFormula, publish } from "../server/formulas/queries.ts"
import { dayOf } from "../server/web/zones.ts"

const line = (quantity: string, ingredient: string) => ({
  quantity,
  readAs: "",
  ingredient,
  note: "",
  countsAs: "" as const,
})

const stage = (key: Stage["key"], kind: Stage["kind"], lowMin: number, highMin: number, driven = false): Stage => ({
  key,
  kind,
  name: kind[0]!.toUpperCase() + kind.slice(1),
  lowMin,
  highMin,
  ...(driven ? { referenceC: 24 } : {}),
  drivenByTemperature: driven,
  handsOnMin: 10,
  cue: "",
  tip: "",
})

/** The tin loaf of the tests: 1 000 g flour with the levain's, 70 % water, 2 % salt; bulk 4–6 h and proof 2 h at 24 °C. */
export const tinLoaf: FormulaContent = {
  about: "A plain loaf for one large tin.",
  pan: "one 2 lb tin",
  pieces: "1",
  pieceMass: "",
  pieceTolerance: "",
  measures: "metric",
  finishing: [],
  variants: [],
  parts: [
    {
      key: "levain",
      name: "Levain",
      goesInto: "dough",
      staysPercent: "",
      lines: [line("100 g", "bread flour"), line("100 g", "water"), line("20 g", "ripe starter")],
    },
    {
      key: "dough",
      name: "Final dough",
      goesInto: "",
      staysPercent: "",
      lines: [line("890 g", "bread flour"), line("590 g", "water"), line("20 g", "salt")],
    },
  ],
  stages: [
    stage("mix", "mix", 20, 20),
    stage("bulk", "bulk", 240, 360, true),
    stage("shape", "shape", 20, 20),
    stage("proof", "proof", 120, 120, true),
    stage("bake", "bake", 40, 40),
    stage("cool", "cool", 60, 60),
  ],
}

/** Ana publishes the tin loaf and gives it to her class for a window around today. */
export async function giveBakeDay(
  db: Db,
  cast: { classId: number; ana: { id: number } },
  changes: Partial<NewBakeDay> & { content?: FormulaContent } = {},
) {
  const { content = tinLoaf, ...bakeDay } = changes
  const formulaId = await addFormula(db, cast.ana.id, { title: "Tin loaf", content })
  const { id: revisionId } = await publish(db, formulaId, "")
  const day = (offset: number) => dayOf(new Date(Date.now() + offset * 86_400_000), "Europe/Lisbon")
  const bakeDayId = await addBakeDay(db, {
    classId: cast.classId,
    revisionId,
    title: "Tin loaf week",
    opensOn: day(-3),
    closesOn: day(3),
    onTableTime: "18:00",
    lookFor: "A dome just over the rim.",
    targetDoughC: 24,
    targetRise: 0.5,
    ...bakeDay,
  })
  return { formulaId, revisionId, bakeDayId }
}
