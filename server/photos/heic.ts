import { Worker } from "node:worker_threads"
import { tiffHeadBytes, writeTiffHead } from "./tiff.ts"
import { tookTooLong, tooManyPixels, tooMuchMemory, UnreadablePhoto, unreadableHeic } from "./unreadable.ts"

type Limits = { mostPixels: number; seconds: number; mostMemory?: number }
type Answer = { file: ArrayBuffer; width: number; height: number; channels: 3 | 4 } | { failed: string }

// 48 megapixels take 430 MB in all (measured); a broken file that asks for more is given up.
const enoughMemory = 640 * 1024 * 1024
// What the decoder's own JavaScript needs is far below.
const resourceLimits = { maxOldGenerationSizeMb: 128, maxYoungGenerationSizeMb: 32 }

/**
 * The primary picture of a HEIC file as an uncompressed TIFF with the colour profile `icc`, for the pipeline of all other
 * pictures. It is upright as its own boxes (irot, imir) say; what its EXIF says of turning is only information. Throws
 * UnreadablePhoto.
 */
export async function decodeHeic(heic: Buffer, icc: Buffer, limits: Limits): Promise<Buffer> {
  const { mostPixels, seconds, mostMemory = enoughMemory } = limits
  const worker = new Worker(new URL("./heic-worker.js", import.meta.url), {
    workerData: { heic, room: tiffHeadBytes(icc), mostPixels, mostMemory },
    resourceLimits,
    ...{ stdout: true, stderr: true }, // what the decoder has to say of a broken file is nobody's concern
    execArgv: [], // it needs no loader, nor anything else that the main thread was started with
  })
  const answer = await answerOf(worker, seconds).finally(() => worker.terminate())
  if ("failed" in answer) throw new UnreadablePhoto(reason(answer.failed), { cause: answer.failed })

  const tiff = Buffer.from(answer.file)
  writeTiffHead(tiff, { ...answer, icc })
  return tiff
}

function answerOf(worker: Worker, seconds: number): Promise<Answer> {
  return new Promise((resolve) => {
    const late = setTimeout(() => answer({ failed: "timeout" }), seconds * 1000)
    const answer = (given: Answer) => {
      clearTimeout(late)
      resolve(given)
    }
    worker.once("message", answer)
    worker.once("error", ({ message }) => answer({ failed: message }))
    worker.once("exit", (code) => answer({ failed: `ended with ${code}` }))
  })
}

function reason(failure: string) {
  if (/pixel limit/i.test(failure)) return tooManyPixels
  if (/timeout/i.test(failure)) return tookTooLong
  return /memory limit/i.test(failure) ? tooMuchMemory : unreadableHeic
}
