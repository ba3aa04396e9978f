import { fileURLToPath } from "node:url"
import { Worker } from "node:worker_threads"
import { build } from "esbuild"
import type { PointInPhoto } from "../schema.ts"
import type { KeptCrumb } from "./kept.ts"

export type Task = { file: string; area: PointInPhoto[] | null; acrossMm: number | null }
/** `even` is the crumb under even light, a JPEG, where something was measured. */
export type Answer = { kept: KeptCrumb; even?: Uint8Array }
type Reply = { answer: Answer } | { failed: string }
export type MeasuringThread = ReturnType<typeof openMeasuringThread>

// What the thread's own objects may take; pixels lie outside of it and take about 60 MB (own measurement).
const resourceLimits = { maxOldGenerationSizeMb: 128, maxYoungGenerationSizeMb: 32 }
const idleMs = 30_000

/**
 * A thread that measures one crumb at a time, started when there is something to do and ended when there was nothing for a
 * while. `measure` throws when the thread crashes or takes too long; the next one gets a new thread.
 */
export function openMeasuringThread({ seconds = 30 } = {}) {
  let worker: Worker | undefined
  let previous: Promise<unknown> = Promise.resolve()
  let idle: NodeJS.Timeout | undefined
  const end = async () => {
    const ending = worker
    worker = undefined
    await ending?.terminate()
  }

  async function measureNow(task: Task): Promise<Answer> {
    clearTimeout(idle)
    try {
      worker ??= await startThread()
      const reply = await replyOf(worker, task, seconds)
      if ("failed" in reply) throw new Error(`Measuring failed: ${reply.failed}`)
      return reply.answer
    } catch (error) {
      await end()
      throw error
    } finally {
      idle = setTimeout(end, idleMs).unref()
    }
  }

  return {
    measure(task: Task): Promise<Answer> {
      const mine = previous.then(() => measureNow(task))
      previous = mine.catch(() => {})
      return mine
    },
    close: async () => {
      clearTimeout(idle)
      await end()
    },
  }
}

function replyOf(worker: Worker, task: Task, seconds: number): Promise<Reply> {
  return new Promise((resolve) => {
    const answered = (reply: Reply) => {
      clearTimeout(late)
      worker.off("message", answered).off("error", broke).off("exit", ended)
      resolve(reply)
    }
    const broke = ({ message }: Error) => answered({ failed: message })
    const ended = (code: number) => answered({ failed: `the thread ended with ${code}` })
    const late = setTimeout(() => answered({ failed: `it took longer than ${seconds} s` }), seconds * 1000)
    worker.on("message", answered).on("error", broke).on("exit", ended)
    worker.postMessage(task)
  })
}

let bundled: Promise<string> | undefined

/** Node 20 starts a thread without a loader, so the thread's TypeScript becomes one script first. */
async function startThread() {
  bundled ??= bundle()
  const started = new Worker(await bundled, {
    ...{ eval: true, execArgv: [], resourceLimits },
    workerData: { home: import.meta.url },
  })
  started.on("error", () => {}) // what it says while it is being ended is nobody's concern
  started.unref()
  return started
}

async function bundle() {
  const entryPoints = [fileURLToPath(new URL("./measuring-thread.ts", import.meta.url))]
  const options = { bundle: true, platform: "node", format: "cjs", target: "node20", write: false } as const
  const { outputFiles } = await build({ ...options, entryPoints })
  return outputFiles[0]!.text
}
