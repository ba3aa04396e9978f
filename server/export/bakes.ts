import { changeIn } from "../changes/words.ts"
import type { Stage } from "../dough/schedule.ts"
import { cues, isCue } from "../dough/verdict/cues.ts"
import { namedIn } from "../dough/verdict/verdict.ts"
import { asMade } from "../formulas/content.ts"
import type { TableBake } from "../table/queries.ts"
import { layRow, type Row } from "../table/row.ts"
import type { Asked } from "./asked.ts"
import { type Columns, percentOf, rounded } from "./csv.ts"
import { bakesInFull, type Exported, judgementsOf, listRevisions } from "./queries.ts"

/** A bake with all that the table says of it. */
export type Told = {
  bake: TableBake & Exported
  row: Row
  judged: Record<"baker" | "instructor", "under" | "well" | "over" | "unsure" | null>
}

export async function* toldBakes({ db, bakes, asking, now }: Asked): AsyncGenerator<Told[]> {
  for await (const some of bakesInFull(db, bakes, asking)) {
    const judgedOf = await judgementsOf(
      db,
      some.map(({ id }) => id),
    )
    yield some.map((bake) => ({
      ...{ bake, judged: judgedOf(bake.id) },
      row: layRow(bake, bake.content.stages, bake, now, bake.culture),
    }))
  }
}

/** Every stage there is in the formula as any of these bakers was given it, in order. */
export async function stagesOf({ db, bakes, bakeDay }: Asked): Promise<Stage[]> {
  const used = await listRevisions(db, [...new Set(bakes.map(({ revisionId }) => revisionId))])
  const all = [bakeDay.content, ...used.map(({ content }) => content)].flatMap((content) => [
    ...content.stages,
    ...content.variants.flatMap(({ key }) => asMade(content, key).stages),
  ])
  return [...new Map(all.map((stage) => [stage.key, stage])).values()]
}

/** One bake a row: plan, times, what the model makes of it, and the result. */
export const bakeColumns = (asked: Asked, stages: Stage[]): Columns<Told> => ({
  bake_day: () => asked.bakeDay.title,
  bake_id: ({ bake }) => bake.id,
  baker: ({ bake }) => bake.name,
  bake_number: ({ bake }) => bake.nth,
  shared_with_class: ({ bake }) => bake.shared,
  formula: () => asked.bakeDay.formulaTitle,
  formula_revision: ({ bake }) => bake.revisionNumber,
  made: ({ bake }) => bake.way,
  kitchen: ({ bake }) => bake.kitchen,
  state: ({ bake }) => stateOf(bake),
  wanted_on_table_at: ({ bake }) => asked.at(bake.onTableAt),
  finished_at: ({ bake }) => asked.at(bake.finishedAt),
  given_up_at: ({ bake }) => asked.at(bake.abandonedAt),
  changes: ({ bake }) => bake.changes.map((change) => changeIn(change, asked.say)).join("; "),
  ...Object.assign({}, ...stages.map((stage) => stageColumns(stage, asked))),
  planned_reference_h: ({ row }) => rounded(row.plannedHours, 2),
  reference_h: ({ row }) => rounded(row.fermented?.hours, 2),
  reference_h_assumed_percent: ({ row }) => percentOf(row.fermented?.assumedShare),
  mean_temperature_c: ({ row }) => rounded(row.warmth?.meanC, 2),
  mean_temperature_of: ({ row }) => (row.warmth?.meanC === undefined ? null : row.warmth.from),
  target_dough_temperature_c: ({ bake }) => rounded(bake.targetDoughC, 2),
  rise_percent: ({ row }) => percentOf(row.rise?.share),
  target_rise_percent: ({ row }) => percentOf(row.targetRise),
  finger_test: ({ row }) => row.finger,
  verdict: ({ row }) => row.verdict.call,
  ...verdictColumns,
  likeliest_reason: ({ row }) => namedIn(row.verdict)?.name,
  baker_says: ({ judged }) => judged.baker,
  instructor_says: ({ judged }) => judged.instructor,
  ...causeColumns,
  inside_temperature_c: ({ bake }) => rounded(bake.insideC, 1),
  dough_mass_g: ({ bake }) => rounded(bake.doughMassG, 1),
  baked_mass_g: ({ bake }) => rounded(bake.bakedMassG, 1),
  height_mm: ({ bake }) => rounded(bake.heightMm, 1),
  crumb_visible_cell_area_percent: ({ bake }) => percentOf(bake.crumbs[0]?.share),
  crumb_cells_per_cm2: ({ bake }) => rounded(bake.crumbs[0]?.perCm2, 1),
  crumb_mean_cell_mm2: ({ bake }) => rounded(bake.crumbs[0]?.meanMm2, 2),
  crumb_largest_cell_mm2: ({ bake }) => rounded(bake.crumbs[0]?.largestMm2, 1),
  crumb_cautions: ({ bake }) => bake.crumbs[0]?.cautions.join(" "),
  piece_masses_g: ({ bake }) => bake.pieceMassesG.map((g) => rounded(g, 1)).join(" "),
  baked_in: ({ bake }) => bake.vessel,
  seen: ({ bake }) => seenIn(bake).join("; "),
  own_words: ({ bake }) => bake.ownWords,
  photos: ({ bake }) => bake.photos.length,
})

export const stateOf = ({ finishedAt, abandonedAt }: TableBake) =>
  abandonedAt ? "given up" : finishedAt ? "finished" : "open"

const seenIn = ({ cues: keys }: TableBake) => keys.filter(isCue).map((key) => cues[key].label)

/** "bulk_planned_min", "bulk_began_at", "bulk_ended_at", "bulk_min": the last without pauses, empty without a marked end. */
function stageColumns({ key, name }: Stage, { at }: Asked): Columns<Told> {
  const as = (key || name).toLowerCase().replace(/[^a-z0-9]+/g, "_")
  const timeOf = ({ row }: Told) => row.times.find(({ stage }) => stage.key === key)
  const markOf = ({ bake }: Told) => bake.marks.find(({ stageKey }) => stageKey === key)
  return {
    [`${as}_planned_min`]: (told) => rounded(timeOf(told)?.plannedMin, 1),
    [`${as}_began_at`]: (told) => at(markOf(told)?.startedAt),
    [`${as}_ended_at`]: (told) => at(markOf(told)?.endedAt),
    [`${as}_min`]: (told) => rounded(timeOf(told)?.actualMin, 1),
  }
}

const verdictColumns: Columns<Told> = Object.fromEntries(
  (["under", "well", "over"] as const).map((call) => [
    `${call}_percent`,
    ({ row }: Told) => (row.verdict.call === "not enough to say" ? null : percentOf(row.verdict[call])),
  ]),
)

const causesOf = ({ row }: Told) => (row.causes.enough ? row.causes : undefined)
const causeColumns: Columns<Told> = {
  lead_min: (told) => rounded(causesOf(told)?.leadMin, 1),
  ...Object.fromEntries(
    (["time", "temperature", "leaven", "activity"] as const).map((cause) => [
      `lead_from_${cause}_min`,
      (told: Told) => rounded(causesOf(told)?.shares.find(({ key }) => key === cause)?.min, 1),
    ]),
  ),
}
