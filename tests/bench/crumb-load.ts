/**
 * What measuring does to everybody else: how long pages take while nothing is measured and while 20 crumbs are, in one
 * run, and how much memory the service comes to need for it. Run: `npm run bench:crumb-load`, on a machine that does
 * nothing else. No test depends on a time.
 */
import { randomUUID } from "node:crypto"
import { readFile, rm } from "node:fs/promises"
import { setTimeout as wait } from "node:timers/promises"
import { buildApp } from "../../server/app.ts"
import { startBake } from "../../server/bakes/queries.ts"
import { connect } from "../../server/db.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { processPhoto } from "../../server/photos/processing.ts"
import { addPhoto } from "../../server/photos/queries.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"
import { startService } from "../service.ts"

const queued = Number(process.env.PHOTOS ?? 20)
// people at open pages, who read before they ask for the next
const readers = 4
const pauseMs = 50

const dataDir = await emptyDataDir()
const { cookie, pages, areas } = await prepare()
const service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
await untilMeasured()
await ask(5000) // until everything is compiled
const before = await memoryMb("VmRSS")
const alone = await ask(10_000)

// every one of them measured anew, within another area
for (const url of areas)
  await post(url, { x1: "35", y1: "40", x2: "65", y2: "40", x3: "65", y3: "75", x4: "35", y4: "75" })
const began = Date.now()
const during: number[] = []
let most = before
while (!(await isMeasured())) {
  during.push(...(await ask(500)))
  most = Math.max(most, await memoryMb("VmRSS"))
}
const tookS = (Date.now() - began) / 1000
const peak = await memoryMb("VmHWM")
await service.stop()
await rm(dataDir, { recursive: true })

say("nothing is measured", alone)
say(`${queued} crumbs in ${tookS.toFixed(0)} s`, during)
console.log(`p95 ratio ${(percentile(during, 0.95) / percentile(alone, 0.95)).toFixed(2)}`)
console.log(`the whole service: ${before} MB before, ${most} MB at most meanwhile, ${peak} MB at its peak`)

function say(name: string, times: number[]) {
  const [middle, high] = [percentile(times, 0.5), percentile(times, 0.95)]
  console.log(`${name.padEnd(24)} ${String(times.length).padStart(5)} pages, p50 ${middle} ms, p95 ${high} ms`)
}
function percentile(times: number[], share: number) {
  return Number(times.toSorted((a, b) => a - b)[Math.floor(share * (times.length - 1))]!.toFixed(1))
}

async function prepare() {
  const { db, close } = await connect({ url: "", dataDir })
  const app = buildApp({ db, settings: { PUBLIC_URL: "", DATA_DIR: dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] } })
  await app.ready()
  const cast = await gatherCast(app)
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const bake = () => startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  const [read, bakeId] = [await bake(), await bake()]
  const picture = await processPhoto(await drawCrumb({ seed: 5, proof: "well" }))
  const { width, height } = picture
  const ids = Array.from({ length: queued }, () => randomUUID())
  for (const id of ids) {
    await app.photoStore.keep(id, picture)
    const told = { subject: "crumb" as const, takenAt: new Date(), forClass: true, acrossMm: 190 }
    await addPhoto(db, { id, bakeId, userId: cast.ben.id, ...told, width, height })
  }
  const session = await app.people.createSession(cast.ben.id, {})
  await app.close()
  await close()
  return {
    cookie: `common_oven=${session.id}`,
    pages: ["/", `/bakes/${read}`, `/bake-days/${bakeDayId}`, `/bake-days/${bakeDayId}/table`],
    areas: ids.map((id) => `/photos/${id}/crumb/area`),
  }
}

/** How long each page took that readers asked for in turn, in ms. */
async function ask(forMs: number) {
  const times: number[] = []
  const until = Date.now() + forMs
  const reading = async (first: number) => {
    for (let n = first; Date.now() < until; n++) {
      const began = performance.now()
      const response = await fetch(service.url + pages[n % pages.length], { headers: { cookie } })
      await response.text()
      if (!response.ok) throw new Error(`a page was answered with ${response.status}`)
      times.push(performance.now() - began)
      await wait(pauseMs)
    }
  }
  await Promise.all(Array.from({ length: readers }, (_, first) => reading(first)))
  return times
}

async function post(url: string, fields: Record<string, string>) {
  const body = new URLSearchParams(fields)
  const { status } = await fetch(service.url + url, { method: "POST", body, headers: { cookie }, redirect: "manual" })
  if (status !== 303) throw new Error(`${url} was answered with ${status}`)
}

async function isMeasured() {
  const last = await fetch(service.url + areas.at(-1)!.replace("/area", ""), { headers: { cookie } })
  return !/This crumb (waits|is being measured|is taken up)/.test(await last.text())
}
async function untilMeasured() {
  while (!(await isMeasured())) await wait(500)
}

/** Of the service's process, as Linux tells it. */
async function memoryMb(what: "VmRSS" | "VmHWM") {
  const status = await readFile(`/proc/${service.process.pid}/status`, "utf8")
  return Math.round(Number(new RegExp(`${what}:\\s+(\\d+) kB`).exec(status)?.[1]) / 1024)
}
