import { randomUUID } from "node:crypto"
import type { ReadStream } from "node:fs"
import { mkdir, open, readdir, readFile, rename, rm, stat } from "node:fs/promises"
import { dirname, join } from "node:path"
import type { ProcessedPhoto } from "./processing.ts"

/** `even` is made from a crumb when it is measured: what was measured, under even light. */
export type PhotoSize = "large" | "small" | "even"
const sizes: PhotoSize[] = ["large", "small", "even"]

/**
 * Photos as files, at DATA_DIR/photos/<first two characters>/<key>-<size>.jpg. A key is a UUID in lower case; any other
 * text throws RangeError, so that no key leads outside the folder.
 */
export function photoStore(dataDir: string) {
  function path(key: string, size: PhotoSize) {
    if (!isKey(key)) throw new RangeError("Not the key of a photo")
    if (!sizes.includes(size)) throw new RangeError("Not the size of a photo")
    return join(dataDir, "photos", key.slice(0, 2), `${key}-${size}.jpg`)
  }

  return {
    path,

    /** Done when both sizes are on the disk; a crash before leaves no half picture under a real name. */
    async keep(key: string, photo: ProcessedPhoto) {
      await writeWhole(path(key, "large"), photo.large)
      await writeWhole(path(key, "small"), photo.small)
    },

    /** A crumb under even light, in place of an earlier one. */
    async keepEven(key: string, picture: Uint8Array) {
      await writeWhole(path(key, "even"), picture)
    },

    /** Keeps the same picture under another key, with files of its own; false when there is none. */
    async copy(from: string, to: string): Promise<boolean> {
      const large = await there(readFile(path(from, "large")))
      const small = await there(readFile(path(from, "small")))
      if (!large || !small) return false
      await writeWhole(path(to, "large"), large)
      await writeWhole(path(to, "small"), small)
      return true
    },

    /** The picture's bytes, or undefined when there is none. */
    async open(key: string, size: PhotoSize): Promise<ReadStream | undefined> {
      return (await there(open(path(key, size))))?.createReadStream()
    },

    /** Forgets every size; fine when they are gone already. */
    async remove(key: string) {
      for (const size of sizes) await rm(path(key, size), { force: true })
    },

    /** Folder by folder the files last written before a moment; `unfinished` are those whose writing was cut off. */
    async *filesBefore(before: Date) {
      for (const folder of (await listFolder(join(dataDir, "photos"))).filter((name) => name.length === 2)) {
        const names = (await listFolder(join(dataDir, "photos", folder))).filter((name) => isKey(name.slice(0, 36)))
        const files = names.map((name) => ({
          path: join(dataDir, "photos", folder, name),
          key: name.slice(0, 36),
          unfinished: name.endsWith(".tmp"),
        }))
        const writtenAt = await Promise.all(files.map(async ({ path }) => (await there(stat(path)))?.mtime))
        yield files.filter((_file, index) => (writtenAt[index] ?? before) < before)
      }
    },
  }
}

const isKey = (text: string) => /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text)
const listFolder = async (folder: string) => (await there(readdir(folder))) ?? []

/** What is asked of a file, or undefined when there is no such file. */
async function there<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined
    throw error
  }
}

async function writeWhole(path: string, bytes: Uint8Array) {
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
