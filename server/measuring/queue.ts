import { inArray, sql } from "drizzle-orm"
import PgBoss from "pg-boss"
import type { Connection } from "../db.ts"
import type { photoStore } from "../photos/storage.ts"
import { measurements } from "../schema.ts"
import { askForAll, channel } from "./asking.ts"
import { giveUp, measurePhoto } from "./job.ts"
import { openMeasuringThread } from "./thread.ts"

const queue = "crumb"
// Our own choices. A photo takes about a second; the thread gives up (thread.ts) well before a job is taken for lost.
const ofQueue = { policy: "stately", retryLimit: 2, retryDelay: 2, expireInSeconds: 40 } as const
const sweepEveryMs = 60_000

type Log = { error: (trouble: unknown) => void }
type Needs = { connection: Connection; store: ReturnType<typeof photoStore>; log: Log }

/**
 * Measures what waits, one photo at a time in this process, until it is stopped. The rows of measurements are the truth; a
 * job is only how a process takes one up: at most one of each state for a photo (policy "stately"), so never two at once.
 */
export async function openMeasuring({ connection, store, log }: Needs) {
  const { db, listen, alone } = connection
  const thread = openMeasuringThread()
  let stopped = false
  let present: string | undefined
  // a library that is being stopped still asks, when the database may be gone
  const executeSql: Connection["runSql"] = async (text, values) =>
    stopped ? { rows: [] } : connection.runSql(text, values)
  const boss = new PgBoss({ db: { executeSql }, schedule: false, maintenanceIntervalSeconds: 10, deleteAfterDays: 1 })
  boss.on("error", (error) => stopped || log.error(error))
  await boss.start()
  await boss.createQueue(queue, { name: queue, ...ofQueue })
  if (alone) await takeUpInterrupted(boss, executeSql)

  const worker = await boss.work<{ photoId: string }>(
    queue,
    { pollingIntervalSeconds: 2, includeMetadata: true },
    async ([job]) => {
      const { id, data, retryCount, retryLimit } = job!
      present = id
      try {
        await measurePhoto({ db, store, thread }, data.photoId)
      } catch (error) {
        if (stopped) throw error
        log.error(error)
        if (retryCount < retryLimit) throw error
        await giveUp(db, data.photoId)
      } finally {
        present = undefined
        boss.notifyWorker(worker) // the next without a pause
      }
    },
  )

  async function send(photoId: string) {
    await boss.send(queue, { photoId }, { singletonKey: photoId })
    boss.notifyWorker(worker)
  }
  const sweeping = () =>
    sweep().catch((error) => {
      if (!stopped) log.error(error)
    })
  /** Finds rows that wait without a job: asked for while nobody listened, or their job was lost. */
  async function sweep() {
    await askForAll(db)
    for (const { photoId, failed } of await listWithoutJob(db)) await (failed ? giveUp(db, photoId) : send(photoId))
  }
  const stopListening = await listen(channel, {
    heard: (photoId) => void send(photoId).catch((error) => stopped || log.error(error)),
    missed: sweeping,
  })
  const sweeper = setInterval(sweeping, sweepEveryMs).unref()
  void sweeping()

  return {
    stop: async () => {
      clearInterval(sweeper)
      await stopListening()
      if (present) await putBack(executeSql, present)
      await boss.stop({ graceful: false, close: false })
      stopped = true
      await thread.close()
    },
  }
}

/** Where nobody else can be at work, what is still marked as running was cut off; it comes after the others. */
async function takeUpInterrupted(boss: PgBoss, runSql: Connection["runSql"]) {
  const { rows } = await runSql("select id from pgboss.job where name = $1 and state = 'active'", [queue])
  const ids = (rows as { id: string }[]).map(({ id }) => id)
  if (ids.length === 0) return
  await boss.fail(queue, ids)
  await runSql(
    "update pgboss.job set start_after = now(), priority = priority - 1 where name = $1 and id = any($2::uuid[]) and state = 'retry'",
    [queue, ids],
  )
}

/** What is cut off because the service stops was not tried: it goes back as if it had not begun. */
const putBack = (runSql: Connection["runSql"], id: string) =>
  runSql(
    "update pgboss.job set state = 'retry', started_on = null, start_after = now() where name = $1 and id = $2 and state = 'active'",
    [queue, id],
  )

/** `failed`: its job was tried as often as it may be since this was asked. */
function listWithoutJob(db: Connection["db"]) {
  const jobs = sql`pgboss.job j where j.name = ${queue} and j.singleton_key = ${measurements.photoId}::text`
  return db
    .select({
      photoId: measurements.photoId,
      failed: sql<boolean>`exists (select 1 from ${jobs} and j.state = 'failed' and j.started_on >= ${measurements.askedAt})`,
    })
    .from(measurements)
    .where(
      sql`${inArray(measurements.state, ["waiting", "running"])} and not exists (select 1 from ${jobs} and j.state < 'completed')`,
    )
}
