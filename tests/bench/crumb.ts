/**
 * How long measuring a crumb takes, from a JPEG of 12 megapixels: against sharp's own decoding and shrinking of that file,
 * and against the same steps written with image-js and with OpenCV in WebAssembly. Processor time, the best of some
 * rounds, all in turn so that a busy machine slows each alike. Then the peak memory of a process that only measures.
 * Run by `npm run bench:crumb`; nothing in the tests may depend on time.
 */
import { execFileSync } from "node:child_process"
import { readFileSync } from "node:fs"
import { mkdtemp, rm, writeFile } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import sharp from "sharp"
import { type Area, type Grey, measureCrumb } from "../../server/crumb/measure.ts"

const whole: Area = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
]
const rounds = 8
sharp.cache(false)
sharp.concurrency(1)

const [, , file] = process.argv
if (file) await peakOf(file)
else await compare()

async function compare() {
  const folder = await mkdtemp(join(tmpdir(), "crumb-"))
  const path = join(folder, "crumb.jpg")
  const { drawPhoto, withImageJs, withOpenCv } = await import("./crumb-libraries.ts")
  await writeFile(path, await drawPhoto())
  const photo = readFileSync(path)
  const grey = await decode(photo)

  const ways: Record<string, () => unknown> = {
    "sharp alone: decode and shrink": () => decode(photo),
    "ours, with decoding": async () => measureCrumb(await decode(photo), whole),
    "ours, from grey pixels": () => measureCrumb(grey, whole),
    "with OpenCV, from grey pixels": () => withOpenCv(grey),
    "with image-js, from grey pixels": () => withImageJs(grey),
  }
  const best = await bestOf(ways)
  const [alone, all, ours, openCv, imageJs] = Object.values(best) as [number, number, number, number, number]
  for (const [way, ms] of Object.entries(best)) console.log(`${way.padEnd(34)}${ms.toFixed(0).padStart(6)} ms`)
  console.log(`whole measurement by sharp alone  ${(all / alone).toFixed(2).padStart(6)}   (at most 4)`)
  console.log(`OpenCV by ours                    ${(openCv / ours).toFixed(2).padStart(6)}   (more than 1)`)
  console.log(`image-js by ours                  ${(imageJs / ours).toFixed(2).padStart(6)}   (more than 1)`)
  const crumb = measureCrumb(grey, whole)
  console.log("cells found: ours", crumb.kind === "measured" ? crumb.cells.length : crumb.reasons)
  console.log("             OpenCV", withOpenCv(grey), "image-js", withImageJs(grey))
  console.log(
    execFileSync(process.execPath, [...process.execArgv, import.meta.filename, path], { encoding: "utf8" }).trim(),
  )
  await rm(folder, { recursive: true })
}

async function bestOf(ways: Record<string, () => unknown>) {
  const best: Record<string, number> = {}
  for (let round = 0; round < rounds; round++) {
    for (const [way, run] of Object.entries(ways)) {
      const before = process.cpuUsage()
      await run()
      const { user, system } = process.cpuUsage(before)
      best[way] = Math.min(best[way] ?? Number.POSITIVE_INFINITY, (user + system) / 1000)
    }
  }
  return best
}

async function peakOf(path: string) {
  const before = peakMb()
  for (let i = 0; i < 5; i++) measureCrumb(await decode(readFileSync(path)), whole)
  console.log(`peak memory: ${peakMb()} MB for five in a row, of which ${before} MB before the first`)
}

/** Linux keeps the most a process has held; what Node reports as its own includes what its parent held. */
function peakMb() {
  const [, kilobytes] = readFileSync("/proc/self/status", "utf8").match(/VmHWM:\s+(\d+)/) ?? []
  return Math.round(Number(kilobytes) / 1024)
}

async function decode(photo: Buffer): Promise<Grey> {
  const { data, info } = await sharp(photo)
    .autoOrient()
    .resize({ width: 1600, height: 1600, fit: "inside", withoutEnlargement: true })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { width: info.width, height: info.height, data }
}
