import type { Db } from "../db.ts"
import { listBakesOf } from "../table/queries.ts"
import type { Viewer } from "../web/access.ts"
import { listRemindersFor } from "./queries.ts"
import { missingOf } from "./standing.ts"

/** What somebody is reminded of, each with what their bake misses now; one of a bake that misses nothing any more is gone. */
export async function notesFor(db: Db, viewer: Viewer, bakeDayId?: number) {
  const reminders = await listRemindersFor(db, viewer, bakeDayId)
  const bakeIds = reminders.flatMap(({ bake }) => (bake ? [bake.id] : []))
  const bakes = bakeIds.length ? await listBakesOf(db, { bakeIds }, { viewer }) : []
  const missing = new Map(bakes.map((bake) => [bake.id, missingOf(bake, new Date())]))
  return reminders
    .map((reminder) => ({ ...reminder, missing: (reminder.bake && missing.get(reminder.bake.id)) ?? [] }))
    .filter(({ bake, missing }) => !bake?.finishedAt || missing.length > 0)
}
