import { randomUUID } from "node:crypto"
import type { ReadStream } from "node:fs"
import { mkdir, open, readFile, rename, rm } from "node:fs/promises"
import { dirname, join } from "node:path"
import type { ProcessedPhoto } from "./processing.ts"

export type PhotoSize = "large" | "small"

/**
 * Photos as files, at DATA_DIR/photos/<first two characters>/<key>-<size>.jpg. A key is a UUID in lower case; any other
 * text throws RangeError, so that no key leads outside the folder.
 */
export function photoStore(dataDir: string) {
  function path(key: string, size: PhotoSize) {
    if (!/^[0-9a-f-]{36}$/.test(key)) throw new RangeError("Not the key of a photo")
    if (size !== "large" && size !== "small") throw new RangeError("Not the size of a photo")
    return join(dataDir, "photos", key.slice(0, 2), `${key}-${size}.jpg`)
  }

  return {
    path,

    /** Done when both sizes are on the disk; a crash before leaves no half picture under a real name. */
    async keep(key: string, photo: ProcessedPhoto) {
      await writeWhole(path(key, "large"), photo.large)
      await writeWhole(path(key, "small"), photo.small)
    },

    /** Keeps the same picture under another key, with files of its own; false when there is none. */
    async copy(from: string, to: string): Promise<boolean> {
      try {
        await writeWhole(path(to, "large"), await readFile(path(from, "large")))
        await writeWhole(path(to, "small"), await readFile(path(from, "small")))
        return true
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return false
        throw error
      }
    },

    /** The picture's bytes, or undefined when there is none. */
    async open(key: string, size: PhotoSize): Promise<ReadStream | undefined> {
      try {
        return (await open(path(key, size))).createReadStream()
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined
        throw error
      }
    },

    /** Forgets both sizes; fine when they are gone already. */
    async remove(key: string) {
      await rm(path(key, "large"), { force: true })
      await rm(path(key, "small"), { force: true })
    },
  }
}

async function writeWhole(path: string, bytes: Buffer) {
  const folder = dirname(path)
  await mkdir(folder, { recursive: true })
  const unfinished = `${path}.${randomUUID()}.tmp`
  try {
    await onDisk(unfinished, "wx", (file) => file.writeFile(bytes))
    await rename(unfinished, path)
  } catch (error) {
    await rm(unfinished, { force: true })
    throw error
  }
  // The new name lives in the folder, which has to reach the disk as well.
  await onDisk(folder, "r")
}

async function onDisk(path: string, flags: string, write?: (file: Awaited<ReturnType<typeof open>>) => Promise<void>) {
  const file = await open(path, flags)
  try {
    await write?.(file)
    await file.sync()
  } finally {
    await file.close()
  }
}
