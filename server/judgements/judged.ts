import type { Db } from "../db.ts"
import { listBakesOf } from "../table/queries.ts"
import { layRow } from "../table/row.ts"
import type { Viewer } from "../web/access.ts"
import { found } from "../web/errors.ts"

/** One bake as the table has it, and what the table says of it. */
export async function judgedBake(db: Db, viewer: Viewer, id: number, now: Date) {
  const [bake] = await listBakesOf(db, { bakeIds: [id] }, { viewer })
  const { content, culture, ...rest } = found(bake)
  return { bake: { ...rest, content }, row: layRow(rest, content.stages, rest, now, culture) }
}
