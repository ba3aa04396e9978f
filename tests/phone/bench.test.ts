import type { Browser, BrowserContextOptions, Locator, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { chromiumPath, openBrowser, patienceMs, phone } from "../browser/chromium.ts"
import { type Kitchen, openKitchen } from "./kitchen.ts"
import { queued, signIn } from "./phone.ts"

describe.skipIf(!chromiumPath)("a bench on a phone", () => {
  let kitchen: Kitchen
  let browser: Browser
  let signedIn: BrowserContextOptions["storageState"]

  beforeAll(async () => {
    ;[kitchen, browser] = [await openKitchen(), await openBrowser()]
    const context = await browser.newContext(phone)
    await signIn(await context.newPage(), kitchen.url, "ben")
    signedIn = await context.storageState()
    await context.close()
  })
  afterAll(async () => {
    await browser.close()
    await kitchen.close()
  })

  /** Ben, signed in, at a bake that no other test has touched. */
  async function benAtHisBake(options: BrowserContextOptions = {}) {
    const url = kitchen.url + (await kitchen.newBakes()).ben
    const context = await browser.newContext({ ...phone, storageState: signedIn, ...options })
    context.setDefaultTimeout(patienceMs)
    const page = await context.newPage()
    await page.addInitScript(countWakeLocks)
    await page.goto(url)
    return { context, page, url }
  }

  async function startMix(page: Page) {
    await page.getByRole("button", { name: "Start Mix", exact: true }).tap()
    await page.getByRole("heading", { name: "Mix", level: 1 }).waitFor()
  }

  test("a reading takes two taps and its digits, and the phone's own keyboard stays away", async () => {
    const { page } = await benAtHisBake()
    const tile = page.locator("#reading-dough")

    await tile.locator("summary").first().tap()
    expect(await tile.locator("[name=value]").evaluate((field: HTMLInputElement) => field.inputMode)).toBe("none")
    for (const key of ["2", "4", ".", "5"]) await tile.locator(`[data-key="${key}"]`).tap()
    expect(await tile.locator("[name=value]").inputValue()).toBe("24.5")
    await tile.getByRole("button", { name: "Keep dough temperature" }).tap()

    await tile.locator("summary", { hasText: "24.5 °C" }).first().waitFor()
    await shut(tile)
    await sent(page)
    await page.reload()
    await page.locator("#last-dough b", { hasText: "24.5 °C" }).waitFor()
  })

  test("a finger test takes two taps, and the height at the start is asked once", async () => {
    const { page } = await benAtHisBake()
    await page.locator("#reading-finger > summary").tap()
    await page.getByRole("button", { name: "comes back slowly, partly" }).tap()
    await page.locator("#last-finger", { hasText: "comes back slowly, partly" }).waitFor()
    await sent(page)

    const jar = page.locator("#reading-rise")
    const type = async (keys: string) => {
      for (const key of keys) await jar.locator(`[data-key="${key}"]`).tap()
    }
    await jar.locator("> summary").tap()
    await type("50")
    await jar.locator("[name=value]").tap()
    await type("70")
    await jar.getByRole("button", { name: "Keep rise" }).tap()
    await jar.locator("summary", { hasText: "+40 %" }).first().waitFor()
    await sent(page)
    await jar.locator("summary", { hasText: "50 → 70 mm" }).first().waitFor()

    await jar.locator("> summary").tap()
    expect(await jar.locator("[name=startHeight]").inputValue()).toBe("50")
    await type("75")
    await jar.getByRole("button", { name: "Keep rise" }).tap()
    await jar.locator("summary", { hasText: "+50 %" }).first().waitFor()
    await sent(page)
  })

  test("it works by keyboard alone", async () => {
    const { page } = await benAtHisBake()
    await page.locator("#reading-room > summary").focus()
    await page.keyboard.press("Enter")
    await page.locator("#reading-room [name=value]:focus").waitFor()
    await page.keyboard.type("21.5")
    await page.keyboard.press("Enter")
    await page.locator("#last-room", { hasText: "21.5 °C" }).waitFor()
    await page.locator("#reading-room > summary:focus").waitFor()
    await page.keyboard.press("Enter")
    await page.locator("#reading-room[open]").waitFor()
    await page.keyboard.press("Escape")
    await shut(page.locator("#reading-room"))
    await sent(page)
  })

  test("without a script the keypad is away and the field is an ordinary one", async () => {
    const { page } = await benAtHisBake({ javaScriptEnabled: false })
    await page.locator("#reading-ph > summary").tap()
    expect(await page.locator("#reading-ph .keypad").isVisible()).toBe(false)
    expect(await page.locator("#timers").isVisible()).toBe(false)
    const field = page.locator("#reading-ph [name=value]")
    expect(await field.getAttribute("inputmode")).toBe("decimal")
    await field.fill("4.2")
    await page.getByRole("button", { name: "Keep pH" }).tap()
    await page.locator("#last-ph", { hasText: "pH 4.2" }).waitFor()
  })

  test("a stage runs at once without network, its clock ticks, and the screen is kept on", async () => {
    const { page, context } = await benAtHisBake()
    await context.setOffline(true)
    await startMix(page)
    const clock = page.locator("#now .clock")
    expect(await clock.locator("b").innerText()).toBe("0:00")
    const before = await clock.innerText()
    await expect.poll(() => clock.innerText()).not.toBe(before)
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset.wakeLocks)).toBe("1")
    expect(await capHeight(page)).toBeGreaterThanOrEqual(60)

    await page.getByRole("button", { name: "End Mix", exact: true }).tap()
    await page.getByRole("heading", { name: "Bulk is next" }).waitFor()
    await page.getByRole("button", { name: "Go on with Mix" }).first().tap()
    await page.getByRole("heading", { name: "Mix", level: 1 }).waitFor()
    await context.setOffline(false)
    await sent(page)
    await page.reload()
    await page.getByRole("heading", { name: "Mix", level: 1 }).waitFor()
    expect(await page.locator("#now .began").innerText()).toContain("began")
  })

  test("a time that cannot be read comes back to its field", async () => {
    const { page } = await benAtHisBake()
    await page.getByText("It was earlier").tap()
    await page.getByLabel("When Mix started").fill("half two")
    await page.getByRole("button", { name: "Start Mix then" }).tap()
    await page.getByRole("button", { name: "Correct it" }).tap()
    await page.locator("#now .error", { hasText: "means different times in different places" }).waitFor()
    await page.getByLabel("When Mix started").fill("40 min ago")
    await page.getByRole("button", { name: "Start Mix then" }).tap()
    await page.locator("#now .clock b", { hasText: "0:40" }).waitFor()
    await sent(page)
  })

  test("a timer survives that its page is closed, and says how long ago it was due", async () => {
    const { page, context, url } = await benAtHisBake()
    await startMix(page)
    await page.getByText("Timer, sound and screen").tap()
    await page.getByLabel("Minutes").fill("30")
    await page.getByRole("button", { name: "Ring once" }).tap()
    await page.locator("#timers .due", { hasText: "as you set" }).waitFor()
    const set = Date.now()
    await sent(page)
    await page.reload()
    await page.locator("#timers .due", { hasText: "as you set" }).waitFor()
    await page.close()

    const later = await context.newPage()
    await later.clock.install({ time: set + 42 * 60_000 })
    await later.goto(url)
    const alerts = later.locator("#timers [role=alert]")
    await alerts.locator("p", { hasText: "Mix: its 20 min are over." }).waitFor()
    expect(await alerts.innerText()).toMatch(/Mix: the 30 min you set are over. It was due 1[12] min ago./)
    await later.reload()
    await later.locator("#timers .due").waitFor({ state: "attached" })
    await later.clock.runFor(2000)
    expect(await alerts.locator("p").count()).toBe(0)
  })

  test("the screen may sleep where somebody wants it to, and that is remembered", async () => {
    const { page } = await benAtHisBake()
    await startMix(page)
    await sent(page)
    await page.getByText("Timer, sound and screen").tap()
    await page.getByLabel("Keep the screen on").uncheck()
    await page.reload()
    await page.locator("#now .clock i").waitFor()
    await page.waitForTimeout(1500)
    expect(await page.evaluate(() => document.documentElement.dataset.wakeLocks)).toBeUndefined()
    await page.getByText("Timer, sound and screen").tap()
    await page.getByLabel("Keep the screen on").check()
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset.wakeLocks)).toBe("1")
  })

  test.each([
    ["at 320 px", { width: 320, height: 568 }, "100%"],
    ["at 200 % text size", { width: 390, height: 844 }, "200%"],
    ["at 320 px and 200 % text size", { width: 320, height: 568 }, "200%"],
  ])("%s nothing scrolls sideways, and every button is large enough", async (_how, viewport, fontSize) => {
    const { page } = await benAtHisBake({ viewport })
    await startMix(page)
    await page.evaluate((size) => {
      document.documentElement.style.fontSize = size
    }, fontSize)
    // as in the evening, when the times of the estimate are tomorrow's
    await page.locator("#estimate .range").evaluateAll((ranges) => {
      for (const range of ranges) range.innerHTML = range.innerHTML.replace(/(?:\w{3} )?(\d\d:\d\d)/g, "Wed $1")
    })
    expect(await sideways(page)).toBe(0)
    for (const kind of ["dough", "rise", "finger", "other", "note"]) {
      const tile = page.locator(`#reading-${kind}`)
      await tile.locator("> summary").click()
      await tile.locator("form").evaluate((form) => form.scrollIntoView())
      expect(await sideways(page), kind).toBe(0)
      expect(await tooSmall(page, `#reading-${kind} form`), kind).toEqual([])
      if (kind !== "finger") await tile.locator("button.keep").click({ trial: true })
      await page.keyboard.press("Escape")
    }
    await page.getByText("Timer, sound and screen").click()
    expect(await tooSmall(page, "#now, #timers, #readings")).toEqual([])
    expect(await sideways(page)).toBe(0)
  })
})

function countWakeLocks() {
  const { wakeLock } = navigator
  const request = wakeLock.request.bind(wakeLock)
  wakeLock.request = (kind) => {
    const { dataset } = document.documentElement
    dataset.wakeLocks = String(Number(dataset.wakeLocks ?? 0) + 1)
    return request(kind)
  }
}

const shut = (tile: Locator) => expect.poll(() => tile.getAttribute("open")).toBeNull()

const sent = (page: Page) => expect.poll(() => queued(page)).toBe(0)

const sideways = (page: Page) =>
  page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - document.documentElement.clientWidth))

/** How tall the digits of the clock are, in CSS pixels. */
const capHeight = (page: Page) =>
  page.locator("#now .clock b").evaluate((digits) => {
    const context = document.createElement("canvas").getContext("2d")!
    const { fontWeight, fontSize, fontFamily } = getComputedStyle(digits)
    context.font = `${fontWeight} ${fontSize} ${fontFamily}`
    return context.measureText("0").actualBoundingBoxAscent
  })

/** What a thumb is to hit and is not 48 px high, or wide. */
const tooSmall = (page: Page, within: string) =>
  page.locator(within).evaluateAll((places) =>
    places
      .flatMap((place) => [...place.querySelectorAll<HTMLElement>("button, summary, label:has(input), .button")])
      .filter((target) => target.checkVisibility() && target.getClientRects().length > 0)
      .filter((target) => target.offsetHeight < 48 || target.offsetWidth < 48)
      .map((target) => target.outerHTML.slice(0, 90)),
  )
