/**
 * Kills the service 40 times with SIGKILL while readings are posted, and then looks whether each reading that it
 * acknowledged is there, once. Run: `npm run test:crash` (embedded database), or with DATABASE_URL set to an empty
 * PostgreSQL database. Ends with 1 when one is missing.
 */
import { randomInt, randomUUID } from "node:crypto"
import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { setTimeout as wait } from "node:timers/promises"
import { buildApp } from "../../server/app.ts"
import { connect } from "../../server/db.ts"
import { readings } from "../../server/schema.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { startService } from "../service.ts"

const kills = Number(process.env.KILLS ?? 40)
const url = process.env.DATABASE_URL ?? ""
const dataDir = await mkdtemp(join(tmpdir(), "common-oven-crash-"))
const { cookie, bakeId } = await prepare()

const acknowledged = new Set<string>()
const sentTwice: string[] = []
for (let kill = 1; kill <= kills; kill++) {
  const service = await startService({ DATA_DIR: dataDir, DATABASE_URL: url })
  const writers = [1, 2, 3].map(() => write(service.url))
  // counted in readings, not in time: on a busy machine it would be killed before it ever answered
  const enough = acknowledged.size + randomInt(1, 20)
  while (acknowledged.size < enough && service.process.exitCode === null) await wait(randomInt(5, 50))
  await service.stop("SIGKILL")
  await Promise.all(writers)
  process.stdout.write(`\r${kill} kills, ${acknowledged.size} readings acknowledged `)
}

const { db, close } = await connect({ url, dataDir })
const kept = (await db.select({ entryId: readings.entryId }).from(readings)).map((row) => row.entryId)
await close()
await rm(dataDir, { recursive: true })

const lost = [...acknowledged].filter((entryId) => !kept.includes(entryId))
const doubled = kept.length - new Set(kept).size
console.log(
  `\n${kills} kills: ${acknowledged.size} acknowledged, ${lost.length} lost, ${doubled} doubled, ${sentTwice.length} sent twice`,
)
process.exit(lost.length === 0 && doubled === 0 && acknowledged.size >= kills ? 0 : 1)

async function prepare() {
  const { db, close } = await connect({ url, dataDir })
  const app = buildApp({ db, settings: { PUBLIC_URL: "", DATA_DIR: dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] } })
  await app.ready()
  const cast = await gatherCast(app)
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  const session = await app.people.createSession(cast.ben.id, {})
  await app.close()
  await close()
  return { cookie: `common_oven=${session.id}`, bakeId: Number(location?.split("/").at(-1)) }
}

/** Posts readings one after another until the service is gone; what got no answer is sent again to the next one. */
async function write(service: string) {
  for (;;) {
    const entryId = sentTwice.length > 0 && randomInt(2) ? sentTwice.at(-1)! : randomUUID()
    const body = new URLSearchParams({ entryId, kind: "dough", value: "24.5" })
    const response = await fetch(`${service}/bakes/${bakeId}/readings`, {
      method: "POST",
      body,
      headers: { cookie },
      redirect: "manual",
    }).catch(() => undefined)
    if (!response) return sentTwice.push(entryId)
    if (response.status !== 303) throw new Error(`a reading was answered with ${response.status}`)
    acknowledged.add(entryId)
  }
}
