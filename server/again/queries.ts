import { and, desc, eq, lt } from "drizzle-orm"
import { mayDoAs } from "../bakes/access.ts"
import type { Db } from "../db.ts"
import { bakeDays, bakes, memberships, revisions } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

/** A baker's earlier bakes of the same formula that this person may read, in whatever class, the newest first. */
export async function listEarlier(
  db: Db,
  viewer: Viewer,
  { id, userId, formulaId }: { id: number; userId: number; formulaId: number },
) {
  const viewers = and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, viewer.id))
  const rows = await db
    .select({
      id: bakes.id,
      userId: bakes.userId,
      shared: bakes.shared,
      title: bakeDays.title,
      onTableAt: bakes.onTableAt,
      role: memberships.role,
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .leftJoin(memberships, viewers)
    .where(and(eq(bakes.userId, userId), eq(revisions.formulaId, formulaId), lt(bakes.id, id)))
    .orderBy(desc(bakes.id))
  return rows.filter((row) => mayDoAs(viewer, viewer.isOwner ? "instructor" : (row.role ?? undefined), row))
}
