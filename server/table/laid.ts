import type { Say } from "../accounts/say.ts"
import type { TableBake } from "./queries.ts"
import { layRow, type Row } from "./row.ts"
import { traits } from "./traits.ts"
import type { Values } from "./values.ts"

/** A bake as it lies on the table: what its log says, and what it has in each respect in which bakes can differ. */
export type Laid = { bake: TableBake; name: string; nth: number; row: Row & { zone: string }; values: Values }

export function layBake(bake: TableBake, now: Date, say: Say): Laid {
  const row = { ...layRow(bake, bake.content.stages, bake, now, bake.culture), zone: bake.zone }
  const values: Values = Object.fromEntries(traits.map(({ key, of }) => [key, of({ bake, row }, say)]))
  return { bake, name: bake.name, nth: bake.nth, row, values }
}
