import { eq } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakes, corrections, type Vessel } from "../schema.ts"

export type Seen = { vessel: Vessel; cues: string[] }

/** What was seen of a bake, in place of what was said of it before, which stays in the corrections. */
export async function keepCues(db: Db, bakeId: number, userId: number, seen: Seen) {
  const [was] = await db
    .select({ vessel: bakes.vessel, cues: bakes.cues })
    .from(bakes)
    .where(eq(bakes.id, bakeId))
    .for("update")
  if (!was || isSame(was, seen)) return
  if (saysSomething(was)) await db.insert(corrections).values({ bakeId, userId, was })
  await db.update(bakes).set(seen).where(eq(bakes.id, bakeId))
}

export const saysSomething = ({ vessel, cues }: Seen) => vessel !== "" || cues.length > 0
const isSame = (one: Seen, other: Seen) =>
  one.vessel === other.vessel && one.cues.toSorted().join() === other.cues.toSorted().join()
