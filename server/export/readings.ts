import type { ReadingKind } from "../schema.ts"
import type { TableBake } from "../table/queries.ts"
import type { Asked } from "./asked.ts"
import { type Columns, percentOf, rounded } from "./csv.ts"
import { bakesInFull, type Exported, type Reading, readingsOf } from "./queries.ts"

type Row = { bake: TableBake & Exported; reading: Reading }

/** How a reading's kind is called in every file. */
export const quantities: Record<ReadingKind, string> = {
  ...{ dough: "dough temperature", room: "room temperature", fridge: "fridge temperature", oven: "oven temperature" },
  ...{ water: "water temperature", levain: "levain temperature" },
  ...{ rise: "rise", ph: "pH", finger: "finger test", note: "note" },
}
const isTemperature = (kind: ReadingKind) => quantities[kind].endsWith("temperature")

/** What of a reading's value is said in which unit. */
export const valuesOf = ({ kind, value, finger, typed }: Reading) => ({
  temperatureC: isTemperature(kind) ? rounded(value) : null,
  risePercent: kind === "rise" ? percentOf(value) : null,
  ph: kind === "ph" ? rounded(value) : null,
  fingerTest: finger,
  note: kind === "note" ? typed : null,
})

/** One reading a row; each quantity has a column of its own, so that no column mixes units. */
export const readingColumns = ({ bakeDay, at }: Asked): Columns<Row> => ({
  bake_day: () => bakeDay.title,
  bake_id: ({ bake }) => bake.id,
  baker: ({ bake }) => bake.name,
  bake_number: ({ bake }) => bake.nth,
  taken_at: ({ reading }) => at(reading.takenAt),
  taken_within_min: ({ reading }) => rounded(reading.takenAboutMin, 1),
  stage: ({ bake, reading }) => bake.asWritten.stages.find(({ key }) => key === reading.stageKey)?.name,
  reading: ({ reading }) => quantities[reading.kind],
  of: ({ reading }) => reading.of,
  known: ({ reading }) => reading.known,
  temperature_c: ({ reading }) => valuesOf(reading).temperatureC,
  rise_percent: ({ reading }) => valuesOf(reading).risePercent,
  ph: ({ reading }) => valuesOf(reading).ph,
  finger_test: ({ reading }) => valuesOf(reading).fingerTest,
  note: ({ reading }) => valuesOf(reading).note,
  as_typed: ({ reading }) => (reading.kind === "note" ? null : reading.typed),
})

export async function* readingRows({ db, bakes, asking }: Asked): AsyncGenerator<Row[]> {
  for await (const some of bakesInFull(db, bakes, asking)) {
    const readings = await readingsOf(
      db,
      some.map(({ id }) => id),
    )
    yield some.flatMap((bake) => (readings.get(bake.id) ?? []).map((reading) => ({ bake, reading })))
  }
}
