import { rm } from "node:fs/promises"
import { TransactionRollbackError } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import { test as base } from "vitest"
import { buildApp } from "../server/app.ts"
import type { Db } from "../server/db.ts"
import { type Cast, gatherCast } from "./cast.ts"
import { temporaryFolder } from "./data-dir.ts"
import { openTestDatabase } from "./database.ts"

const { db: database } = await openTestDatabase()

/**
 * Each test gets the whole app on a real database, inside a transaction that is rolled back, with the cast: olga owns the
 * instance, ana teaches the class "Thursday bakers", asta assists, ben and bea are students in it, cleo teaches another class,
 * dan is a student of hers.
 */
export const test = base.extend<{ db: Db; app: FastifyInstance; dataDir: string; cast: Cast }>({
  // biome-ignore lint/correctness/noEmptyPattern: vitest reads the fixture's needs from this pattern
  async dataDir({}, use) {
    const folder = await temporaryFolder()
    await use(folder)
    await rm(folder, { recursive: true })
  },
  // biome-ignore lint/correctness/noEmptyPattern: vitest reads the fixture's needs from this pattern
  async db({}, use) {
    const run = database.transaction(async (tx) => {
      await use(tx as unknown as Db)
      tx.rollback()
    })
    await run.catch((error) => {
      if (!(error instanceof TransactionRollbackError)) throw error
    })
  },
  async app({ db, dataDir }, use) {
    const app = buildApp({ db, settings: { ...quiet, DATA_DIR: dataDir } })
    await app.ready()
    await use(app)
    await app.close()
  },
  async cast({ app }, use) {
    await use(await gatherCast(app))
  },
})

export const quiet = { PUBLIC_URL: "", LOG_LEVEL: "silent" as const, TRUST_PROXY: [] }
export { expect } from "vitest"
