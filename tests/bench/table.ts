/**
 * How long the table of a bake day takes, for classes of 10 to 1000 with 20 readings each, from request to page: processor
 * time of this one process, its database included. Prints the exponent that fits the times, 1 for time in proportion; and
 * what the page of 30 bakes with 60 readings weighs. Run by `npm run bench:table`; nothing in the tests depends on a time.
 */
import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { gzipSync } from "node:zlib"
import { linearRegression } from "simple-statistics"
import { buildApp } from "../../server/app.ts"
import { openEmbedded } from "../../server/db.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { addStudents, addWholeClass } from "../table/class.ts"

const sizes = [10, 30, 100, 300, 1000]

const folder = await mkdtemp(join(tmpdir(), "common-oven-bench-"))
const { db, close } = await openEmbedded("memory://")
const app = buildApp({ db, settings: { PUBLIC_URL: "", LOG_LEVEL: "silent", TRUST_PROXY: [], DATA_DIR: folder } })
await app.ready()
const cast = await gatherCast(app)
const students = await addStudents(db, cast, sizes.at(-1)!)

async function tableOf(count: number, readingsEach: number) {
  const day = await giveBakeDay(db, cast)
  await addWholeClass(db, day, students.slice(0, count), readingsEach)
  return `/bake-days/${day.bakeDayId}/table`
}

async function secondsOf(url: string) {
  const before = process.cpuUsage()
  await cast.ana.open(url)
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1e6
}

const weighed = (await cast.ana.open(await tableOf(30, 60))).text
console.log(
  `30 bakes with 60 readings each: ${(Buffer.byteLength(weighed) / 1000).toFixed(0)} kB, ${(gzipSync(weighed).length / 1000).toFixed(0)} kB gzipped`,
)

const times: { count: number; seconds: number }[] = []
for (const count of sizes) {
  const url = await tableOf(count, 20)
  const seconds: number[] = []
  // the best of several: the first are slower while code is compiled
  for (let round = 0; round < (count > 200 ? 4 : 12); round++) seconds.push(await secondsOf(url))
  times.push({ count, seconds: Math.min(...seconds) })
  console.log(`${count} bakes: ${(Math.min(...seconds) * 1000).toFixed(0)} ms`)
}

const { m } = linearRegression(times.map(({ count, seconds }) => [Math.log(count), Math.log(seconds)]))
console.log(`time grows with the number of bakes to the power of ${m.toFixed(2)}`)

await app.close()
await close()
await rm(folder, { recursive: true })
