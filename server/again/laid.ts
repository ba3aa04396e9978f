import type { TableBake } from "../table/queries.ts"
import { layRow, type Row } from "../table/row.ts"

/** A bake and what the table says of it. */
export type Laid = { bake: TableBake; row: Row }

export const laid = (bake: TableBake, now: Date): Laid => ({
  bake,
  row: layRow(bake, bake.content.stages, bake, now, bake.culture),
})
