// Runs in a thread of its own (thread.ts): reads a photo, measures its crumb, and draws it under even light.
import { createRequire } from "node:module"
import { setPriority } from "node:os"
import { parentPort, workerData } from "node:worker_threads"
import type Sharp from "sharp"
import { cutOut } from "../crumb/area.ts"
import { evenLight } from "../crumb/even-light.ts"
import type { Grey, Spot } from "../crumb/measure.ts"
import { measured } from "./measured.ts"
import type { Answer, Task } from "./thread.ts"

// the script has no place of its own from which packages could be found
const sharp = createRequire((workerData as { home: string }).home)("sharp") as typeof Sharp
sharp.cache(false)
sharp.concurrency(1)
// On Linux a priority is a thread's own: pages come first where cores are few. Elsewhere it would be the whole process's.
if (process.platform === "linux") setPriority(0, 5)

parentPort!.on("message", async (task: Task) => {
  try {
    parentPort!.postMessage({ answer: await measure(task) })
  } catch (error) {
    parentPort!.postMessage({ failed: (error as Error).stack ?? String(error) })
  }
})

async function measure({ file, area, acrossMm }: Task): Promise<Answer> {
  const grey = await readGrey(file)
  if (!grey) return { kept: { kind: "unreadable" } }
  const kept = measured(grey, { area, acrossMm })
  if (kept.kind !== "measured") return { kept }
  const { even, picture } = await drawEven(file, grey, kept.area)
  return { kept: { ...kept, even }, even: picture }
}

async function readGrey(file: string): Promise<Grey | undefined> {
  const read = sharp(file, { failOn: "error" }).greyscale().raw().toBuffer({ resolveWithObject: true })
  const decoded = await read.catch(() => undefined)
  return decoded && { width: decoded.info.width, height: decoded.info.height, data: decoded.data }
}

/** The area's own part of the photo, each pixel as much lighter or darker as its grey is under even light; white around it. */
async function drawEven(file: string, grey: Grey, area: readonly Spot[]) {
  const piece = cutOut(grey, area)
  const light = evenLight(piece.grey, piece.inside)
  const [left, top] = [Math.max(0, piece.left), Math.max(0, piece.top)]
  const [width, height] = [
    Math.min(grey.width, piece.left + piece.grey.width) - left,
    Math.min(grey.height, piece.top + piece.grey.height) - top,
  ]
  const colours = await sharp(file, { failOn: "error" })
    .extract({ left, top, width, height })
    .removeAlpha()
    .toColourspace("srgb")
    .raw()
    .toBuffer()
  for (let y = 0, at = 0; y < height; y++) {
    const row = (y + top - piece.top) * piece.grey.width + left - piece.left
    for (let i = row; i < row + width; i++, at += 3) {
      const by =
        piece.inside.data[i] === 0 ? Number.POSITIVE_INFINITY : light.data[i]! / Math.max(1, piece.grey.data[i]!)
      for (let channel = at; channel < at + 3; channel++)
        colours[channel] = Math.min(255, colours[channel]! * by || (by > 255 ? 255 : 0))
    }
  }
  const picture = await sharp(colours, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 80 })
    .toBuffer()
  return { even: { left, top, width, height }, picture: new Uint8Array(picture) }
}
