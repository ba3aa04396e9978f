import { mkdir, mkdtemp, readdir, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { buffer } from "node:stream/consumers"
import { test as base, expect } from "vitest"
import { photoStore } from "../../server/photos/storage.ts"

const key = "3f0c9a52-7d1e-4b7a-9c55-0a1b2c3d4e5f"
const photo = { large: Buffer.from("large picture"), small: Buffer.from("small"), width: 4, height: 3 }

const test = base.extend<{ dataDir: string }>({
  // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures wanted from this pattern
  async dataDir({}, use) {
    const dataDir = await mkdtemp(join(tmpdir(), "photos-"))
    await use(dataDir)
    await rm(dataDir, { recursive: true })
  },
})

const read = async (store: ReturnType<typeof photoStore>, size: "large" | "small") => {
  const stream = await store.open(key, size)
  return stream && String(await buffer(stream))
}

test("both sizes come back as they were kept", async ({ dataDir }) => {
  const store = photoStore(dataDir)
  await store.keep(key, photo)
  expect(await read(store, "large")).toBe("large picture")
  expect(await read(store, "small")).toBe("small")
})

test("files lie in a folder of the key's first two characters, with nothing unfinished beside them", async ({
  dataDir,
}) => {
  await photoStore(dataDir).keep(key, photo)
  expect((await readdir(join(dataDir, "photos", "3f"))).sort()).toEqual([`${key}-large.jpg`, `${key}-small.jpg`])
})

test("keeping the same key again replaces the picture", async ({ dataDir }) => {
  const store = photoStore(dataDir)
  await store.keep(key, photo)
  await store.keep(key, { ...photo, large: Buffer.from("better") })
  expect(await read(store, "large")).toBe("better")
})

test("a write that fails leaves no half picture behind", async ({ dataDir }) => {
  const store = photoStore(dataDir)
  await mkdir(join(store.path(key, "large"), "in the way"), { recursive: true })
  await expect(store.keep(key, photo)).rejects.toThrow()
  expect(await readdir(join(dataDir, "photos", "3f"))).toEqual([`${key}-large.jpg`])
})

test("a picture that was never kept is undefined", async ({ dataDir }) => {
  expect(await photoStore(dataDir).open(key, "large")).toBeUndefined()
})

test("removing forgets both sizes, and may be done twice", async ({ dataDir }) => {
  const store = photoStore(dataDir)
  await store.keep(key, photo)
  await store.remove(key)
  await store.remove(key)
  expect(await read(store, "large")).toBeUndefined()
  expect(await read(store, "small")).toBeUndefined()
})

test.for([
  "",
  "../../../../../../etc/passwd-padding-",
  `../${"a".repeat(33)}`,
  key.toUpperCase(),
  `${key}\n`,
  `${key}/`,
  `${key.slice(0, 35)}\0`,
])("the key %j is refused everywhere", async (wrong, { dataDir }) => {
  const store = photoStore(dataDir)
  expect(() => store.path(wrong, "large")).toThrow(RangeError)
  await expect(store.keep(wrong, photo)).rejects.toThrow(RangeError)
  await expect(store.open(wrong, "large")).rejects.toThrow(RangeError)
  await expect(store.remove(wrong)).rejects.toThrow(RangeError)
  expect(await readdir(dataDir)).toEqual([])
})

test("a size from an address that is neither large nor small is refused", ({ dataDir }) => {
  expect(() => photoStore(dataDir).path(key, "/../x" as "large")).toThrow(RangeError)
})
