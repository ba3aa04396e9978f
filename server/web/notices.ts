import { sql } from "drizzle-orm"
import type { Db } from "../db.ts"

/** One bake changed; `version` is what it was changed to. */
export type Notice = { bakeId: number; bakeDayId: number; version: number }

export const channel = "common_oven"

/** Tells every process of the service, this one too, once the transaction is kept (PostgreSQL: NOTIFY). */
export async function notify(db: Db, notice: Notice) {
  await db.execute(sql`select pg_notify(${channel}, ${JSON.stringify(notice)})`)
}
