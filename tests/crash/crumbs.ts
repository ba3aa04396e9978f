/**
 * Kills the service with SIGKILL while crumbs are measured, and then looks whether each photo ended measured or refused,
 * its result written once. Run: `npm run test:crash-crumb` (embedded database), or with DATABASE_URL set to an empty
 * PostgreSQL database, which two processes then share. Ends with 1 when one did not.
 */
import { randomInt, randomUUID } from "node:crypto"
import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { setTimeout as wait } from "node:timers/promises"
import { eq } from "drizzle-orm"
import { buildApp } from "../../server/app.ts"
import { startBake } from "../../server/bakes/queries.ts"
import { connect } from "../../server/db.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { processPhoto } from "../../server/photos/processing.ts"
import { addPhoto } from "../../server/photos/queries.ts"
import { photoStore } from "../../server/photos/storage.ts"
import { bakes, measurements } from "../../server/schema.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { startService } from "../service.ts"

const kills = Number(process.env.KILLS ?? 10)
const photos = Number(process.env.PHOTOS ?? 3 * kills)
const url = process.env.DATABASE_URL ?? ""
const environment = { DATA_DIR: await mkdtemp(join(tmpdir(), "common-oven-crash-")), DATABASE_URL: url }
const dataDir = environment.DATA_DIR
const processes = url ? 2 : 1
// a job that was cut off on a server is taken up again when its time is over
const patienceMs = 300_000

const left = new Set<string>()
const { bakeId, cookie } = await prepare()
for (let kill = 1; kill <= kills; kill++) {
  const services = await start()
  await wait(randomInt(300, 2500))
  for (const service of services) await service.stop("SIGKILL")
  process.stdout.write(`\r${kill} kills `)
}
const services = await start()
const began = Date.now()
while (!(await isDone()) && Date.now() - began < patienceMs) await wait(500)
const tookMs = Date.now() - began
for (const service of services) await service.stop()

const { waiting, running, measured, cannot, written } = await standing()
await rm(dataDir, { recursive: true })
console.log(
  `\n${kills} kills: of ${photos} photos ${measured} measured, ${cannot} refused, ${waiting + running} left; ${written} results written; done ${Math.round(tookMs / 1000)} s after the last start`,
)
process.exit(waiting + running === 0 && measured + cannot === photos && written === photos ? 0 : 1)

async function prepare() {
  const { db, close } = await connect({ url, dataDir })
  const app = buildApp({ db, settings: { PUBLIC_URL: "", DATA_DIR: dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] } })
  await app.ready()
  const cast = await gatherCast(app)
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const bakeId = await startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  const picture = await processPhoto(await drawCrumb({ seed: 5, proof: "well", widthPx: 1280 }))
  for (let n = 0; n < photos; n++) {
    const id = randomUUID()
    left.add(id)
    await photoStore(dataDir).keep(id, picture)
    const { width, height } = picture
    const told = { subject: "crumb" as const, takenAt: new Date(), forClass: true, acrossMm: 190 }
    await addPhoto(db, { id, bakeId, userId: cast.ben.id, ...told, width, height })
  }
  await db.update(bakes).set({ version: 0 }).where(eq(bakes.id, bakeId))
  const session = await app.people.createSession(cast.ben.id, {})
  await app.close()
  await close()
  return { bakeId, cookie: `common_oven=${session.id}` }
}

function start() {
  return Promise.all(Array.from({ length: processes }, () => startService(environment)))
}

/** As the pages say it, because the embedded database belongs to the service. */
async function isDone() {
  for (const id of [...left]) {
    const response = await fetch(`${services[0]!.url}/photos/${id}/crumb`, { headers: { cookie } })
    if (!response.ok) throw new Error(`a crumb was answered with ${response.status}`)
    if (/This crumb (waits|is being measured|is taken up)/.test(await response.text())) return false
    left.delete(id)
  }
  return true
}

/** How many photos are where, and how many results were written: each of them is one more version of the bake. */
async function standing() {
  const { db, close } = await connect({ url, dataDir })
  const rows = await db.select({ state: measurements.state }).from(measurements)
  const bake = await db.query.bakes.findFirst({ where: eq(bakes.id, bakeId), columns: { version: true } })
  await close()
  const count = (state: string) => rows.filter((row) => row.state === state).length
  return {
    ...{ waiting: count("waiting"), running: count("running"), measured: count("measured"), cannot: count("cannot") },
    written: bake!.version,
  }
}
