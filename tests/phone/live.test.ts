import { randomUUID } from "node:crypto"
import type { Browser, BrowserContextOptions, Page } from "playwright-core"
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { chromiumPath, openBrowser, patienceMs, phone } from "../browser/chromium.ts"
import { type Kitchen, openKitchen } from "./kitchen.ts"
import { signIn } from "./phone.ts"

type Name = "ben" | "bea"

describe.skipIf(!chromiumPath)("pages that follow what happens", () => {
  let kitchen: Kitchen
  let browser: Browser
  let bake: string
  const signedIn: Partial<Record<Name, BrowserContextOptions["storageState"]>> = {}

  beforeAll(async () => {
    ;[kitchen, browser] = [await openKitchen(), await openBrowser()]
    for (const name of ["ben", "bea"] as const) {
      const context = await browser.newContext(phone)
      await signIn(await context.newPage(), kitchen.url, name)
      signedIn[name] = await context.storageState()
      await context.close()
    }
  })
  beforeEach(async () => {
    bake = (await kitchen.newBakes()).ben
  })
  afterAll(async () => {
    await browser.close()
    await kitchen.close()
  })

  async function windowOf(name: Name, prepare = async (_page: Page) => {}) {
    const context = await browser.newContext({ ...phone, storageState: signedIn[name] })
    context.setDefaultTimeout(patienceMs)
    const page = await context.newPage()
    await prepare(page)
    await page.goto(kitchen.url + bake)
    return page
  }
  const says = (page: Page, selector: string, words: string) => page.locator(selector, { hasText: words }).waitFor()
  const live = (page: Page) => says(page, "#live-words", "Live")

  /** A reading as another phone of Ben's sends it. */
  const read = (page: Page, kind: string, value: string) =>
    page.evaluate(
      ([url, form]) => fetch(url!, { method: "POST", body: new URLSearchParams(form) }).then(({ ok }) => ok),
      [`${bake}/readings`, new URLSearchParams({ entryId: randomUUID(), kind, value }).toString()],
    )

  test("what one window logs shows in the others, and a keypad half typed stays as it is", async () => {
    const [here, there, classmate] = [await windowOf("ben"), await windowOf("ben"), await windowOf("bea")]
    await Promise.all([here, there, classmate].map((page) => live(page)))
    await here.locator("#reading-dough > summary").tap()
    for (const key of ["2", "3", "."]) await here.locator(`#reading-dough [data-key="${key}"]`).tap()

    await there.locator("#reading-dough > summary").tap()
    for (const key of ["2", "4", ".", "5"]) await there.locator(`#reading-dough [data-key="${key}"]`).tap()
    await there.getByRole("button", { name: "Keep dough temperature" }).tap()

    for (const page of [here, classmate]) await says(page, "#last-dough", "24.5 °C")
    await says(here, "#log", "Dough 24.5 °C")
    const field = here.locator("#reading-dough [name=value]")
    expect(await field.inputValue()).toBe("23.")
    expect(await field.evaluate((element) => element === document.activeElement)).toBe(true)
    await here.locator('#reading-dough [data-key="1"]').tap()
    await here.getByRole("button", { name: "Keep dough temperature" }).tap()
    await says(there, "#last-dough", "23.1 °C")
  })

  test("where events cannot pass the page looks for itself, until they come again", async () => {
    const streams = /\/live\?/
    const page = await windowOf("ben", async (page) => {
      await page.route(streams, (route) => route.abort())
    })
    await says(page, "#live-words", "Looking every 20 s")
    expect(await page.locator("#problem").innerText()).toBe("")
    await read(page, "room", "21.5")
    await says(page, "#last-room", "21.5 °C")

    await page.unroute(streams)
    // an attempt that hangs is given up after a minute, and the next comes up to 20 s later
    await live(page)
    await read(page, "room", "22.5")
    await says(page, "#last-room", "22.5 °C")
  })

  test("a page that was hidden shows what it missed as soon as it is seen again", async () => {
    const page = await windowOf("ben")
    await live(page)
    const hide = (hidden: boolean) =>
      page.evaluate((hidden) => {
        Object.defineProperty(document, "hidden", { configurable: true, get: () => hidden })
        document.dispatchEvent(new Event("visibilitychange"))
      }, hidden)
    await hide(true)
    await read(page, "ph", "4.4")
    await hide(false)
    await says(page, "#last-ph", "pH 4.4")
    await live(page)
  })

  test("an answer that was overtaken by what others did brings nothing back", async () => {
    const page = await windowOf("ben")
    await live(page)
    // as text: what vitest makes of an import does not run in a page
    await page.evaluate("fetch(location.href).then((answer) => answer.text()).then((html) => { window.late = html })")
    await read(page, "ph", "4.4")
    await says(page, "#last-ph", "pH 4.4")
    await page.evaluate(
      'import("/assets/keep-page.js").then(({ renewRegions }) => renewRegions({ url: location.href, html: window.late }))',
    )
    expect(await page.locator("#last-ph").innerText()).toContain("pH 4.4")
  })

  test("without a script the page says when it was drawn, and has a link to look again", async () => {
    const context = await browser.newContext({ ...phone, storageState: signedIn.ben, javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto(kitchen.url + bake)
    expect(await page.locator("#live-words").innerText()).toMatch(/^As of \d\d:\d\d$/)
    await page.getByRole("link", { name: "Look again" }).tap()
    expect(page.url()).toBe(kitchen.url + bake)
  })
})
