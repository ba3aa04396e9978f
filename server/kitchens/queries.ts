import { eq } from "drizzle-orm"
import type { Db } from "../db.ts"
import { kitchens, users } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import type { Kitchen } from "./kitchen.ts"

/** What somebody told of their kitchen; {} where they told nothing yet. */
export async function findKitchen(db: Db, userId: number): Promise<Kitchen> {
  const row = await db.query.kitchens.findFirst({ where: eq(kitchens.userId, userId), columns: { content: true } })
  return row?.content ?? {}
}

type Settings = Pick<Viewer, "temperatureUnit" | "massUnit" | "measures" | "clock" | "zone">

/** The kitchen, and the settings of the account that are asked beside it. */
export async function keepKitchen(db: Db, userId: number, content: Kitchen, settings: Settings) {
  const kitchen = { content, changedAt: new Date() }
  await db.transaction(async (tx) => {
    await tx.update(users).set(settings).where(eq(users.id, userId))
    await tx
      .insert(kitchens)
      .values({ userId, ...kitchen })
      .onConflictDoUpdate({ target: kitchens.userId, set: kitchen })
  })
}
