import { and, eq } from "drizzle-orm"
import { addCount } from "../crumbs/queries.ts"
import type { Db } from "../db.ts"
import { type handCounts, photos } from "../schema.ts"

type Counted = { who: string; by: string; frame: typeof handCounts.$inferInsert.frame; count: number }

const middle = { x: 0.46, y: 0.5, width: 0.12, height: 0.12 }

/** Cells that two people of the class counted by eye in a small frame. */
const counted: Counted[] = [
  { who: "amparo", by: "marta", frame: middle, count: 91 },
  { who: "amparo", by: "tobias", frame: middle, count: 88 },
  { who: "caspar", by: "marta", frame: { x: 0.42, y: 0.45, width: 0.16, height: 0.16 }, count: 90 },
  { who: "eamon", by: "tobias", frame: middle, count: 123 },
]

type Place = { who: string; bakeId: number; ids: Map<string, number>; madeAt: Date }

/** Puts them onto the crumb of a bake that has one. */
export async function addCounts(db: Db, { who, bakeId, ids, madeAt }: Place) {
  const crumb = await db.query.photos.findFirst({ where: and(eq(photos.bakeId, bakeId), eq(photos.subject, "crumb")) })
  if (!crumb) return
  for (const { by, frame, count } of counted.filter((one) => one.who === who))
    await addCount(db, { photoId: crumb.id, userId: ids.get(by)!, frame, count, madeAt })
}
