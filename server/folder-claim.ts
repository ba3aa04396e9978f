import { createHash } from "node:crypto"
import { realpathSync } from "node:fs"
import { stat, unlink } from "node:fs/promises"
import { connect, createServer, type Server } from "node:net"
import { tmpdir } from "node:os"
import { join, relative } from "node:path"
import { setTimeout as wait } from "node:timers/promises"
import { StartRefused } from "./start-refused.ts"

/** Another process has this data folder open; the message says so in one sentence. */
export class FolderInUse extends StartRefused {
  constructor(folder: string) {
    super(
      `DATA_DIR ${folder} is in use by another Common Oven process; stop that one, or give this one a DATA_DIR of its own.`,
    )
  }
}

/**
 * Claims a folder for this process by listening on a socket in it. The kernel closes the socket however the process
 * ends, so nothing is left to clean up after a crash: a socket file that nobody answers is stale.
 * Throws FolderInUse when another process holds it.
 */
export async function claimFolder(folder: string): Promise<{ release: () => Promise<void> }> {
  const path = socketPath(folder)
  if (await answers(path)) throw new FolderInUse(folder)
  await unlink(path).catch(ignoreMissing)

  const server = createServer((socket) => socket.destroy())
  const ours = await listen(server, path, folder)
  server.unref()

  // two processes that both found the same stale file: the later one has replaced the earlier one's socket
  await wait(100)
  const now = await stat(path).catch(() => undefined)
  // closing ours would remove the other one's file; it goes with this process
  if (now?.ino !== ours) throw new FolderInUse(folder)
  return { release: () => new Promise((resolve) => server.close(() => resolve())) }
}

function answers(path: string) {
  return new Promise<boolean>((resolve) => {
    const socket = connect(path)
    socket.once("connect", () => resolve(true)).once("error", () => resolve(false))
    socket.unref()
  })
}

async function listen(server: Server, path: string, folder: string) {
  await new Promise<void>((resolve, reject) => {
    server.once("error", (error: NodeJS.ErrnoException) =>
      reject(error.code === "EADDRINUSE" ? new FolderInUse(folder) : error),
    )
    server.listen(path, resolve)
  })
  return (await stat(path)).ino
}

/** Socket paths end at 107 characters (sun_path in unix(7)): take the shorter spelling, or a place that stands for the folder. */
function socketPath(folder: string) {
  const path = join(realpathSync(folder), "in-use")
  const spellings = [path, relative(process.cwd(), path)].sort((one, other) => one.length - other.length)
  if (spellings[0]!.length < 104) return spellings[0]!
  return join(tmpdir(), `common-oven-${createHash("sha256").update(path).digest("hex").slice(0, 32)}`)
}

function ignoreMissing(error: NodeJS.ErrnoException) {
  if (error.code !== "ENOENT") throw error
}
