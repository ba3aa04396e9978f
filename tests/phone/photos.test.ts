import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { chromiumPath, openBrowser, openWindow, phone } from "../browser/chromium.ts"
import { sample } from "../photos/heic-file.ts"
import { type Kitchen, openKitchen } from "./kitchen.ts"
import { isKept, queued, signIn } from "./phone.ts"

describe.skipIf(!chromiumPath)("photos on a phone", () => {
  let kitchen: Kitchen
  let browser: Browser
  beforeAll(async () => {
    ;[kitchen, browser] = [await openKitchen(), await openBrowser()]
  })
  afterAll(async () => {
    await browser.close()
    await kitchen.close()
  })

  test("several go one after the other, and one that is withdrawn leaves a classmate's phone as well", async () => {
    const [bens, beas] = [await openWindow(browser, phone), await openWindow(browser, phone)]
    const bake = kitchen.url + (await kitchen.newBakes()).ben
    await signIn(bens, kitchen.url, "ben")
    await bens.goto(bake)
    const files = [
      { name: "IMG_1.HEIC", mimeType: "image/heic", buffer: sample("plain.heic") },
      { name: "IMG_2.jpg", mimeType: "image/jpeg", buffer: sample("turned.jpg") },
    ]
    await bens.getByLabel("From the gallery").setInputFiles(files)
    await bens.getByRole("button", { name: "Add the photos" }).click()
    await expect.poll(() => queued(bens)).toBe(0)
    await expect.poll(() => pictures(bens)).toHaveLength(2)
    const [withdrawn] = await pictures(bens)

    await signIn(beas, kitchen.url, "bea")
    await beas.goto(bake)
    await isKept(beas)
    await expect.poll(() => copies(beas)).toHaveLength(2)
    await beas.context().setOffline(true)
    expect(await answerTo(beas, withdrawn!)).toBe(200)
    await beas.context().setOffline(false)

    await bens.locator("#photos summary", { hasText: "Change or remove" }).first().click()
    await bens.getByRole("button", { name: "Remove this photo for good" }).first().click()
    await expect.poll(() => pictures(bens)).toHaveLength(1)

    expect(await answerTo(beas, withdrawn!)).toBe(404)
    await expect.poll(() => copies(beas)).not.toContain(withdrawn)
    await beas.context().setOffline(true)
    expect(await answerTo(beas, withdrawn!)).toBe("nothing")
    for (const page of [bens, beas]) await page.context().close()
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
