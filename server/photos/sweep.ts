import { rm } from "node:fs/promises"
import type { FastifyInstance } from "fastify"
import type { Db } from "../db.ts"
import { listPresent } from "./queries.ts"
import type { photoStore } from "./storage.ts"

const dayMs = 86_400_000

/** Once the service listens, and then every day, removes what a crash left of photos: files that had no row for a day. */
export function sweepDaily(app: FastifyInstance) {
  const sweeping = () =>
    sweep(app.db, app.photoStore, new Date(Date.now() - dayMs)).catch((error) => app.log.error(error))
  let daily: NodeJS.Timeout | undefined
  app.addHook("onListen", async () => {
    daily = setInterval(sweeping, dayMs).unref()
    void sweeping()
  })
  app.addHook("onClose", async () => clearInterval(daily))
}

/** Removes files written before `before` that no photo has; newer ones may still be waiting for their row. */
export async function sweep(db: Db, store: ReturnType<typeof photoStore>, before: Date) {
  for await (const files of store.filesBefore(before)) {
    if (files.length === 0) continue
    const present = new Set(await listPresent(db, [...new Set(files.map(({ key }) => key))]))
    for (const { key, path, unfinished } of files) if (unfinished || !present.has(key)) await rm(path, { force: true })
  }
}
