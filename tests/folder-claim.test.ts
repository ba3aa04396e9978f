import { spawn } from "node:child_process"
import { once } from "node:events"
import { mkdir, rm } from "node:fs/promises"
import { join } from "node:path"
import { test as base, expect } from "vitest"
import { claimFolder, FolderInUse } from "../server/folder-claim.ts"
import { temporaryFolder } from "./data-dir.ts"

const test = base.extend<{ folder: string }>({
  // biome-ignore lint/correctness/noEmptyPattern: vitest reads the fixture's needs from this pattern
  async folder({}, use) {
    const folder = await temporaryFolder()
    await use(folder)
    await rm(folder, { recursive: true })
  },
})

test("a folder is claimed by one, until it is released", async ({ folder }) => {
  const claim = await claimFolder(folder)
  await expect(claimFolder(folder)).rejects.toThrow(FolderInUse)
  await expect(claimFolder(folder)).rejects.toThrow(`DATA_DIR ${folder} is in use by another Common Oven process`)
  await claim.release()
  await (await claimFolder(folder)).release()
})

test("a process that was killed leaves no claim behind", async ({ folder }) => {
  const module = new URL("../server/folder-claim.ts", import.meta.url).href
  const code = `import(${JSON.stringify(module)}).then((it) => it.claimFolder(${JSON.stringify(folder)})).then(() => { console.log("claimed"); setInterval(() => {}, 1000) })`
  const other = spawn(process.execPath, ["--import", "tsx", "--eval", code], { stdio: ["ignore", "pipe", "inherit"] })
  await once(other.stdout, "data")
  await expect(claimFolder(folder)).rejects.toThrow(FolderInUse)

  other.kill("SIGKILL")
  await once(other, "exit")

  await (await claimFolder(folder)).release()
})

test("a folder with a very long path can be claimed", async ({ folder }) => {
  const deep = join(folder, "a-very-long-name-for-a-folder".repeat(5))
  await mkdir(deep)
  const claim = await claimFolder(deep)
  await expect(claimFolder(deep)).rejects.toThrow(FolderInUse)
  await claim.release()
})
