import { rmSync } from "node:fs"
import { cp, mkdtemp } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { connect } from "../server/db.ts"

export const temporaryFolder = () => mkdtemp(join(tmpdir(), "common-oven-test-"))

let empty: Promise<string> | undefined

/** A data folder of its own with an empty database in it. The first one is made, which takes seconds; the others are copies. */
export async function emptyDataDir() {
  empty ??= makeDataDir()
  const folder = await temporaryFolder()
  await cp(join(await empty, "database"), join(folder, "database"), { recursive: true })
  return folder
}

async function makeDataDir() {
  const dataDir = await temporaryFolder()
  process.once("exit", () => rmSync(dataDir, { recursive: true, force: true }))
  const { close } = await connect({ url: "", dataDir })
  await close()
  return dataDir
}
