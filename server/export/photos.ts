import type { ReadStream } from "node:fs"
import type { PassThrough } from "node:stream"
import { finished } from "node:stream/promises"
import { ZipFile } from "yazl"
import type { photoStore } from "../photos/storage.ts"
import type { Asked } from "./asked.ts"
import { photoNames } from "./file-names.ts"
import { bakesInFull } from "./queries.ts"

type Picture = { id: string; name: string; takenAt: Date }
type Store = Pick<ReturnType<typeof photoStore>, "open">

/** Every photo that who asks may see, named; a few bakes' at a time. */
export async function* picturesOf({ db, bakes, asking, bakeDay }: Asked): AsyncGenerator<Picture> {
  for await (const some of bakesInFull(db, bakes, asking))
    for (const { photos, slug, nth } of some) {
      const names = photoNames(photos, { slug, nth, zone: bakeDay.zone })
      for (const { id, takenAt } of photos) yield { id, name: names.get(id)!, takenAt }
    }
}

/**
 * Pictures as a zip, written as somebody reads it: one file is open at a time, and nothing is read ahead. A file that is
 * not there any more is named in missing.txt. When the reader leaves, the file is closed and no other opened.
 */
export function zipOf(pictures: AsyncIterable<Picture>, store: Store) {
  const zip = new ZipFile()
  const out = zip.outputStream as PassThrough
  zip.on("error", (error) => out.destroy(error as Error))
  fill(zip, out, pictures, store).catch((error) => out.destroy(error))
  return out
}

async function fill(zip: ZipFile, out: PassThrough, pictures: AsyncIterable<Picture>, store: Store) {
  let reading: ReadStream | undefined
  out.once("close", () => reading?.destroy())
  const missing: string[] = []
  let kept = 0
  for await (const { id, name, takenAt } of pictures) {
    if (out.destroyed) return
    reading = await store.open(id, "large")
    if (!reading) {
      missing.push(name)
      continue
    }
    // who left while the file was being opened is not read for
    if (out.destroyed) return void reading.destroy()
    // JPEG is as small as it gets
    zip.addReadStream(reading, name, { compress: false, mtime: takenAt })
    kept++
    await closed(reading)
    if (reading.errored) throw reading.errored
  }
  if (out.destroyed) return
  if (missing.length)
    zip.addBuffer(lines("These photos are in the log, and their files are gone:", ...missing), "missing.txt")
  else if (!kept) zip.addBuffer(lines("There is no photo here for you to see."), "no-photos.txt")
  zip.end()
}

const closed = (stream: ReadStream) => finished(stream, { writable: false, cleanup: true }).catch(() => {})
const lines = (...text: string[]) => Buffer.from(`${text.join("\r\n")}\r\n`)
