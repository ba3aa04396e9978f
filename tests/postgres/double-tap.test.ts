import { randomUUID } from "node:crypto"
import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { isNull } from "drizzle-orm"
import pg from "pg"
import { expect, inject, test } from "vitest"
import { buildApp } from "../../server/app.ts"
import { keepPlan } from "../../server/bake-days/queries.ts"
import { connect } from "../../server/db.ts"
import { bakes, calendarFeeds, readings, reminders } from "../../server/schema.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { quiet } from "../test.ts"

// with connections of their own, as in life: within the one transaction of other tests nothing is ever at the same time
test("taps that arrive together start one bake, keep one reading, remind once, move a calendar once and leave one address", async () => {
  const server = new URL(inject("postgresUrl")!)
  const name = `common_oven_taps_${process.pid}`
  const admin = new pg.Client({ connectionString: server.href })
  await admin.connect()
  await admin.query(`drop database if exists ${name}`)
  await admin.query(`create database ${name}`)
  server.pathname = `/${name}`
  const dataDir = await mkdtemp(join(tmpdir(), "common-oven-taps-"))
  const { db, close } = await connect({ url: server.href, dataDir })
  const app = buildApp({ db, settings: { ...quiet, DATA_DIR: dataDir } })
  await app.ready()
  const cast = await gatherCast(app)
  const { ben } = cast
  const { bakeDayId } = await giveBakeDay(db, cast)

  const started = await Promise.all([1, 2, 3, 4, 5].map(() => ben.submit(`/bake-days/${bakeDayId}/bakes`)))
  const [url] = new Set(started.map(({ location }) => location))
  const reading = { entryId: randomUUID(), kind: "dough", value: "24.5" }
  const kept = await Promise.all([1, 2, 3, 4, 5].map(() => ben.submit(`${url}/readings`, reading)))
  const staff = [cast.ana, cast.asta, cast.ana, cast.asta]
  await Promise.all(
    staff.map((one) => one.submit(`/bake-days/${bakeDayId}/reminders`, { userId: String(cast.bea.id) })),
  )

  expect(kept.map(({ status }) => status)).toEqual([303, 303, 303, 303, 303])
  expect(await db.$count(bakes)).toBe(1)
  expect(await db.$count(readings)).toBe(1)
  expect(await db.$count(reminders)).toBe(1)

  await keepPlan(db, bakeDayId, ben.id, { onTableAt: new Date(), variant: "" })
  const files = await Promise.all([1, 2, 3, 4, 5].map(() => ben.open(`/bake-days/${bakeDayId}/day.ics`)))
  const counted = files.flatMap(({ text }) => text.match(/^SEQUENCE:\d+/gm) ?? [])
  expect([...new Set(counted)]).toEqual(["SEQUENCE:1"])
  await Promise.all([1, 2, 3].map(() => ben.submit("/calendar/address")))
  expect(await db.$count(calendarFeeds, isNull(calendarFeeds.revokedAt))).toBe(1)
  await app.close()
  await close()
  await admin.query(`drop database ${name}`)
  await admin.end()
  await rm(dataDir, { recursive: true })
})
