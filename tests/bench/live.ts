/**
 * How long until a reading shows on 200 open pages: from the start of the request that posts it to its value in each
 * stream, over real connections of 200 signed-in students. Run: `npx tsx tests/bench/live.ts`, with TEST_DATABASE_URL for
 * PostgreSQL too, where it makes a database of its own. Ends with 1 when a value is late or a follower or listener is left.
 */
import { type ChildProcess, fork } from "node:child_process"
import { randomUUID } from "node:crypto"
import { once } from "node:events"
import { rm } from "node:fs/promises"
import { get, type IncomingMessage } from "node:http"
import { setTimeout as wait } from "node:timers/promises"
import pg from "pg"
import { quantileSorted } from "simple-statistics"
import { sayTo } from "../../server/accounts/say.ts"
import { buildApp } from "../../server/app.ts"
import { startBake } from "../../server/bakes/queries.ts"
import { connect, type Db } from "../../server/db.ts"
import { marks, memberships, readings, users } from "../../server/schema.ts"
import type { Viewer } from "../../server/web/access.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { temporaryFolder } from "../data-dir.ts"

const [pages, rounds, withinMs] = [200, Number(process.env.ROUNDS ?? 20), 1000]
type Place = { url: string; dataDir: string }
type Student = { cookie: string; viewer: Viewer }
type World = { bakeId: number; bakeDayId: number; poster: Student; students: Student[] }
type Service = { address: string; process: ChildProcess; ask: () => Promise<Count> }
type Count = { followers: number; cpuMs: number }
const listening =
  "select count(*) from pg_stat_activity where application_name = 'common_oven listening' and datname = $1"
let failed = false

await measure("one process, embedded database", "", 1)
const server = process.env.TEST_DATABASE_URL
if (server) {
  await measure("one process, PostgreSQL", server, 1)
  await measure("two processes, one PostgreSQL", server, 2)
} else console.log("PostgreSQL skipped: TEST_DATABASE_URL is not set.")
process.exit(failed ? 1 : 0)

async function measure(what: string, server: string, processes: number) {
  const dataDir = await temporaryFolder()
  const admin = server ? await connectTo(server) : undefined
  const name = `common_oven_live_${process.pid}`
  await admin?.query(`create database ${name}`)
  const url = server ? Object.assign(new URL(server), { pathname: `/${name}` }).href : ""
  try {
    const world = await seed({ url, dataDir })
    const services = await Promise.all(Array.from({ length: processes }, () => start({ url, dataDir })))
    const listeners = async () => Number((await admin?.query(listening, [name]))?.rows[0].count ?? 0)
    for (const [kind, path] of [
      ["bench", `/bakes/${world.bakeId}/live`],
      ["bake day", `/bake-days/${world.bakeDayId}/live`],
    ] as const) {
      report(`${what}, ${pages} pages of the ${kind}`, await follow(services, world, path))
    }
    if (admin) console.log(`  listening connections while they run: ${await listeners()}`)
    for (const service of services) service.process.send("stop")
    await Promise.all(services.map((service) => once(service.process, "exit")))
    if (admin) {
      const left = await listeners()
      failed ||= left > 0
      console.log(`  and once stopped: ${left}`)
    }
  } finally {
    await admin?.query(`drop database ${name} with (force)`)
    await admin?.end()
    await rm(dataDir, { recursive: true })
  }
}
async function connectTo(connectionString: string) {
  const client = new pg.Client({ connectionString })
  await client.connect()
  return client
}

/** A class of 200 in two units and three time zones, everybody with a dough in its bulk. */
async function seed(place: Place): Promise<World> {
  const { db, close } = await connect(place)
  const app = buildApp({
    db,
    settings: { PUBLIC_URL: "", DATA_DIR: place.dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] },
  })
  await app.ready()
  const cast = await gatherCast(app)
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const viewers = await enrol(db, cast.classId)
  const students: Student[] = []
  for (const viewer of viewers) {
    students.push({ viewer, cookie: `common_oven=${(await app.people.createSession(viewer.id, {})).id}` })
    await startDough(db, { bakeDayId, revisionId, userId: viewer.id })
  }
  const bakeId = await startDough(db, { bakeDayId, revisionId, userId: cast.ben.id })
  const ben = (await db.query.users.findMany()).find(({ id }) => id === cast.ben.id)!
  await app.close()
  await close()
  return { bakeId, bakeDayId, students, poster: { viewer: ben, cookie: cast.ben.cookie } }
}

async function enrol(db: Db, classId: number) {
  const zones = ["Europe/Lisbon", "Asia/Kolkata", "America/New_York"]
  const rows = Array.from({ length: pages }, (_, index) => ({
    ...{ signInName: `student-${index}`, passwordHash: "none", zone: zones[index % 3]! },
    temperatureUnit: index % 2 ? ("F" as const) : ("C" as const),
  }))
  const enrolled = await db.insert(users).values(rows).returning()
  await db
    .insert(memberships)
    .values(
      enrolled.map(({ id, signInName }) => ({ classId, userId: id, role: "student" as const, shownName: signInName })),
    )
  return enrolled
}

async function startDough(db: Db, bake: { bakeDayId: number; revisionId: number; userId: number }) {
  const now = Date.now()
  const bakeId = await startBake(db, { ...bake, onTableAt: new Date(now + 6 * 3_600_000) })
  const ago = (minutes: number) => new Date(now - minutes * 60_000)
  await db.insert(marks).values([
    { bakeId, stageKey: "mix", startedAt: ago(140), endedAt: ago(120) },
    { bakeId, stageKey: "bulk", startedAt: ago(120) },
  ])
  await db.insert(readings).values(
    [110, 80, 50, 20].map((minutes) => ({
      ...{ bakeId, entryId: randomUUID(), kind: "dough" as const, takenAt: ago(minutes) },
      ...{ stageKey: "bulk", value: 24, typed: "24" },
    })),
  )
  return bakeId
}

async function start(place: Place): Promise<Service> {
  const child = fork(new URL("live-service.ts", import.meta.url), [JSON.stringify(place)], {
    execArgv: ["--import", "tsx"],
  })
  const answer = async () => (await once(child, "message"))[0]
  const { address } = await answer()
  return {
    ...{ address, process: child },
    ask: () => {
      child.send("count")
      return answer()
    },
  }
}

/** Opens the pages, shared among the services, and posts readings to the first; how late each value came to each page. */
async function follow(services: Service[], { bakeId, students, poster }: World, path: string) {
  const streams = await Promise.all(
    students.map((student, index) => open(services[index % services.length]!.address + path, student)),
  )
  const delays: number[] = []
  await wait(2000) // until the last of them has been drawn once
  const before = await count(services)
  for (let round = 0; round < rounds; round++) {
    await wait(500)
    // no two rounds read alike in either unit
    const c = Number((15 + 0.3 * round).toFixed(1))
    const arrivals = streams.map((stream) => stream.awaits(c))
    const began = performance.now()
    const answer = fetch(`${services[0]!.address}/bakes/${bakeId}/readings`, {
      ...{ method: "POST", redirect: "manual" as const, headers: { cookie: poster.cookie } },
      body: new URLSearchParams({ entryId: randomUUID(), kind: "dough", value: String(c) }),
    })
    delays.push(...(await Promise.all(arrivals)).map((at) => at - began))
    const { status } = await answer
    if (status !== 303) throw new Error(`the reading was answered with ${status}`)
  }
  const cpuMs = ((await count(services)).cpuMs - before.cpuMs) / rounds
  const bytes = streams.reduce((sum, { bytes }) => sum + bytes(), 0) / (pages * rounds)
  for (const stream of streams) stream.close()
  return { delays, bytes, cpuMs, left: await leftAfterClosing(services) }
}

async function count(services: Service[]): Promise<Count> {
  const each = await Promise.all(services.map(({ ask }) => ask()))
  const sum = (of: keyof Count) => each.reduce((total, one) => total + one[of], 0)
  return { followers: sum("followers"), cpuMs: sum("cpuMs") }
}

async function open(url: string, { cookie, viewer }: Student) {
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get(url, { agent: false, headers: { cookie } }, resolve).on("error", reject)
  })
  if (response.statusCode !== 200) throw new Error(`${url} was answered with ${response.statusCode}`)
  let [text, wanted, received] = ["", "", 0]
  let arrived = (_at: number) => {}
  response.setEncoding("utf8")
  response.on("error", () => {})
  response.on("data", (chunk: string) => {
    received += chunk.length
    text += chunk
    if (wanted && text.includes(wanted)) {
      arrived(performance.now())
      ;[text, wanted] = ["", ""]
    }
  })
  return {
    /** When this temperature is there, in the reader's unit; fails after half a minute. */
    awaits: (c: number) =>
      new Promise<number>((resolve, reject) => {
        ;[text, wanted, arrived] = ["", sayTo(viewer).temperature(c), resolve]
        setTimeout(() => reject(new Error(`${wanted} never came`)), 30_000).unref()
      }),
    bytes: () => received,
    close: () => response.destroy(),
  }
}

async function leftAfterClosing(services: Service[]) {
  let left = pages
  for (let tries = 0; left > 0 && tries < 50; tries++) {
    await wait(100)
    left = (await count(services)).followers
  }
  return left
}

type Followed = Awaited<ReturnType<typeof follow>>
function report(what: string, { delays, bytes, cpuMs, left }: Followed) {
  const sorted = delays.toSorted((a, b) => a - b)
  const at = (share: number) => `${Math.round(quantileSorted(sorted, share))} ms`
  const late = sorted.filter((delay) => delay > withinMs).length
  failed ||= late > 0 || left > 0
  console.log(
    `${what}: ${rounds} readings, ${sorted.length} arrivals, ${Math.round(bytes / 1024)} KiB and in all ${Math.round(cpuMs)} ms of processor each`,
  )
  console.log(`  p50 ${at(0.5)}, p95 ${at(0.95)}, p99 ${at(0.99)}, max ${at(1)}; later than ${withinMs} ms: ${late}`)
  console.log(`  followers left after all pages closed: ${left}`)
}
