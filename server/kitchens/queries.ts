import { eq } from "drizzle-orm"
import type { Db } from "../db.ts"
import { kitchens } from "../schema.ts"
import type { Kitchen } from "./kitchen.ts"

/** What somebody told of their kitchen; {} where they told nothing yet. */
export async function findKitchen(db: Db, userId: number): Promise<Kitchen> {
  const row = await db.query.kitchens.findFirst({ where: eq(kitchens.userId, userId), columns: { content: true } })
  return row?.content ?? {}
}
