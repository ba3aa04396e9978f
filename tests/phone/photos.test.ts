import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import type { Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { chromiumPath } from "../browser/chromium.ts"
import { sample } from "../photos/heic-file.ts"
import { type Kitchen, openKitchen } from "./kitchen.ts"
import { isKept, queued, signIn, takePhone } from "./phone.ts"

describe.skipIf(!chromiumPath)("photos on a phone", () => {
  let kitchen: Kitchen
  let profiles: string[]
  beforeAll(async () => {
    kitchen = await openKitchen()
    profiles = await Promise.all([1, 2].map(() => mkdtemp(join(tmpdir(), "common-oven-phone-"))))
  })
  afterAll(async () => {
    await kitchen?.close()
    for (const profile of profiles) await rm(profile, { recursive: true, force: true, maxRetries: 20 })
  })

  test("several go one after the other, and one that is withdrawn leaves a classmate's phone as well", async () => {
    const [bens, beas] = await Promise.all(profiles.map((profile) => takePhone(profile)))
    const bake = kitchen.url + (await kitchen.newBakes()).ben
    await signIn(bens!.page, kitchen.url, "ben")
    await bens!.page.goto(bake)
    const files = [
      { name: "IMG_1.HEIC", mimeType: "image/heic", buffer: sample("plain.heic") },
      { name: "IMG_2.jpg", mimeType: "image/jpeg", buffer: sample("turned.jpg") },
    ]
    await bens!.page.getByLabel("From the gallery").setInputFiles(files)
    await bens!.page.getByRole("button", { name: "Add the photos" }).click()
    await expect.poll(() => queued(bens!.page)).toBe(0)
    await expect.poll(() => pictures(bens!.page)).toHaveLength(2)
    const [withdrawn] = await pictures(bens!.page)

    await signIn(beas!.page, kitchen.url, "bea")
    await beas!.page.goto(bake)
    await isKept(beas!.page)
    await expect.poll(() => copies(beas!.page)).toHaveLength(2)
    await beas!.context.setOffline(true)
    expect(await answerTo(beas!.page, withdrawn!)).toBe(200)
    await beas!.context.setOffline(false)

    await bens!.page.locator("#photos summary", { hasText: "Change or remove" }).first().click()
    await bens!.page.getByRole("button", { name: "Remove this photo for good" }).first().click()
    await expect.poll(() => pictures(bens!.page)).toHaveLength(1)

    expect(await answerTo(beas!.page, withdrawn!)).toBe(404)
    await expect.poll(() => copies(beas!.page)).not.toContain(withdrawn)
    await beas!.context.setOffline(true)
    expect(await answerTo(beas!.page, withdrawn!)).toBe("nothing")
    for (const phone of [bens!, beas!]) await phone.context.close()
  })
})

const pictures = (page: Page) =>
  page.locator("#photos figure img").evaluateAll((images) => images.map((image) => image.getAttribute("src")!))

const answerTo = (page: Page, address: string) =>
  page.evaluate(
    (url) =>
      fetch(url).then(
        ({ status }) => status,
        () => "nothing",
      ),
    address,
  )

/** The pictures that the phone keeps. */
const copies = (page: Page) =>
  page.evaluate(async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith("oven-photos-"))
    const requests = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()))
    return requests.flat().map(({ url }) => new URL(url).pathname)
  })
