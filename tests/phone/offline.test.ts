import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { setTimeout as wait } from "node:timers/promises"
import { eq } from "drizzle-orm"
import type { Browser, BrowserContext, Page } from "playwright-core"
import sharp from "sharp"
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { listMarks, listPhotos, listReadings } from "../../server/bakes/queries.ts"
import type { Db } from "../../server/db.ts"
import { entries } from "../../server/schema.ts"
import { idIn } from "../bench.ts"
import { chromiumPath, openBrowser, patienceMs, phone } from "../browser/chromium.ts"
import { type Kitchen, openKitchen } from "./kitchen.ts"
import { cachesOnDisk, isKept, queued, signIn, takePhone, waiting } from "./phone.ts"

const crust = await sharp({ create: { width: 900, height: 700, channels: 3, background: "tan" } })
  .jpeg()
  .toBuffer()

describe.skipIf(!chromiumPath)("a phone in a kitchen without network", () => {
  let kitchen: Kitchen
  let bake: Awaited<ReturnType<Kitchen["newBakes"]>>
  let profile: string
  let browser: Browser
  const contexts: BrowserContext[] = []

  beforeAll(async () => {
    ;[kitchen, browser] = [await openKitchen(), await openBrowser("--host-resolver-rules=MAP oven.example 127.0.0.1")]
  })
  afterAll(async () => {
    await browser.close()
    await kitchen.close()
  })
  beforeEach(async () => {
    bake = await kitchen.newBakes()
    kitchen.line.loseAnswers(() => false)
    profile = await mkdtemp(join(tmpdir(), "common-oven-phone-"))
  })
  afterEach(async () => {
    for (const context of contexts.splice(0)) await context.close().catch(() => {})
    await rm(profile, { recursive: true, force: true, maxRetries: 20 })
  })

  /** A phone whose browser outlives being closed and killed. */
  async function take(how?: Parameters<typeof takePhone>[1]) {
    const phone = await takePhone(profile, how)
    contexts.push(phone.context)
    return phone
  }

  /** Ben signs in, opens his bake, and lays the phone down; cookies are on its disk then. */
  async function benOpensHisBake() {
    const phone = await take()
    await signIn(phone.page, kitchen.url, "ben")
    await phone.page.goto(kitchen.url + bake.ben)
    await isKept(phone.page)
    await expect.poll(() => cachesOnDisk(profile)).toContain("oven-pages-")
    await phone.context.close()
  }

  /** Ben, signed in, in a browser that forgets him when the test is over. */
  async function benSignedIn(url = kitchen.url) {
    const context = await browser.newContext(phone)
    contexts.push(context)
    context.setDefaultTimeout(patienceMs)
    const page = await context.newPage()
    await signIn(page, url, "ben")
    return { page, context }
  }

  test.each([
    ["", 5, () => false],
    [
      ", where each first answer is lost after the server kept what it was told",
      10,
      (sending: number) => sending % 2 === 1,
    ],
  ] as const)(
    "a stage, readings and a photo are kept through a killed browser, and sent once%s",
    async (_where, sendings, loses) => {
      await benOpensHisBake()
      const without = await take({ offline: true })
      await without.page.goto(kitchen.url + bake.ben)
      const tapped = [
        await log(without.page, "Start Mix"),
        await log(without.page, "Dough temperature", { value: "24.5" }),
        await log(without.page, "Room temperature", { value: "21" }),
        await log(without.page, "Dough temperature", { value: "25.5" }),
        await log(without.page, "Photo", {}, crust),
      ]
      await without.page.locator("#waiting li").nth(4).waitFor()
      await without.kill()

      const again = await take({ offline: true })
      await again.page.goto(kitchen.url + bake.ben)
      await expect
        .poll(() => waiting(again.page))
        .toEqual([
          expect.stringMatching(/^Start Mix \d\d:\d\d · waiting$/),
          expect.stringMatching(/^Dough temperature 24.5 \d\d:\d\d · waiting$/),
          expect.stringMatching(/^Room temperature 21 \d\d:\d\d · waiting$/),
          expect.stringMatching(/^Dough temperature 25.5 \d\d:\d\d · waiting$/),
          expect.stringMatching(/^Photo, .*crust.jpg \d\d:\d\d · waiting$/),
        ])
      kitchen.line.loseAnswers(loses)
      await again.context.setOffline(false)
      await expect.poll(() => queued(again.page)).toBe(0)
      await again.page.locator("#readings", { hasText: "25.5 °C" }).waitFor()

      expect(kitchen.line.sendings()).toBe(sendings)
      const kept = await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))
      expect(kept.map(({ words }) => words)).toEqual(["mix", "dough 24.5", "room 21", "dough 25.5", "photo"])
      for (const [index, { at }] of kept.entries()) expect(Math.abs(+at - tapped[index]!)).toBeLessThan(1000)
    },
  )

  test("what the server refuses comes back to its field, and what came later gets there", async () => {
    const { page, context } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    await context.setOffline(true)
    const wrongAt = await log(page, "Dough temperature", { value: "300" })
    await log(page, "Room temperature", { value: "21" })
    await context.setOffline(false)

    const form = page.locator('form[data-keeps="Dough temperature"]')
    await form.locator(".error").waitFor()
    await expect.poll(() => queued(page)).toBe(1)
    expect(await form.locator("[name=value]").inputValue()).toBe("300")
    expect(await form.locator(".error").innerText()).toBe("300 °C is not possible for a dough. Is that 30 °C?")
    await expect
      .poll(() => waiting(page))
      .toEqual([expect.stringMatching(/^Dough temperature 300 \d\d:\d\d · needs you/)])

    await page.reload()
    await form.locator(".error").waitFor()
    await form.locator("[name=value]").fill("30")
    await press(page, "Dough temperature")
    await expect.poll(() => queued(page)).toBe(0)
    const kept = await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))
    expect(kept.map(({ words }) => words)).toEqual(["dough 30", "room 21"])
    expect(Math.abs(+kept[0]!.at - wrongAt)).toBeLessThan(1000)
  })

  test("what is being typed stays as it is while the page is renewed around it", async () => {
    const { page, context } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    await context.setOffline(true)
    await log(page, "Dough temperature", { value: "24.5" })
    await log(page, "Room temperature", { value: "300" })
    const note = page.getByLabel("Note", { exact: true })
    await page.locator("#reading-note > summary").click()
    await note.fill("Smells of ")
    await context.setOffline(false)
    await page.locator("#log", { hasText: "24.5 °C" }).waitFor()
    await page.locator("#waiting li", { hasText: "Room temperature 300" }).filter({ hasText: "needs you" }).waitFor()
    await page.keyboard.type("apples")
    expect(await note.inputValue()).toBe("Smells of apples")
    expect(await note.isVisible()).toBe(true)

    await page.getByRole("button", { name: "Correct it" }).click()
    const room = page.locator('form[data-keeps="Room temperature"]')
    await room.locator(".error").waitFor()
    expect(await room.locator("[name=value]").inputValue()).toBe("300")
  })

  test("a browser that keeps nothing sends at once, and says what that means", async () => {
    const { page, context } = await benSignedIn()
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("No storage in this window.", "SecurityError")
      }
    })
    await page.goto(kitchen.url + bake.ben)
    await page.locator("#waiting", { hasText: "This browser keeps nothing for this page" }).waitFor()
    await press(page, "Start Mix", "load")
    await page.locator("#stages", { hasText: "no end yet" }).waitFor()
    await context.setOffline(true)
    await press(page, "End Mix", "")
    await page.locator("#waiting", { hasText: "leave this page open and press the button again later" }).waitFor()
    await context.setOffline(false)
    await wait(1000) // a thumb that lands twice
    await press(page, "End Mix", "load")
    const [mix] = await kitchen.look((db) => listMarks(db, idIn(bake.ben)))
    expect([mix?.stageKey, mix?.endedAt]).toEqual(["mix", expect.any(Date)])
  })

  test("a refused entry goes only when it is thrown away", async () => {
    const { page } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    await log(page, "pH", { value: "41" })
    await page.getByRole("button", { name: "Throw away “pH 41”" }).click()
    await page.locator("#waiting").waitFor({ state: "hidden" })
    await page.locator('form[data-keeps="pH"] .error').waitFor({ state: "detached" })
    await page.reload()
    expect(await page.locator("#waiting").isHidden()).toBe(true)
  })

  test("signed out meanwhile, entries wait for the same person, and nobody else sends or sees them", async () => {
    const { page, context } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    await isKept(page)
    await context.clearCookies()
    await log(page, "Dough temperature", { value: "24.5" })
    await log(page, "Note", { value: "Smells of apples" })
    const words = page.locator("#waiting .reasons")
    await words
      .filter({ hasText: "You are signed out. 2 entries are kept on this phone until you sign in as ben." })
      .waitFor()

    await signIn(page, kitchen.url, "bea")
    await page.goto(kitchen.url + bake.bea)
    await words.filter({ hasText: "2 entries are kept on this phone for ben" }).waitFor()
    expect(await page.locator("body").innerText()).not.toContain("apples")
    await context.setOffline(true)
    await page.goto(kitchen.url + bake.ben).catch(() => {})
    expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("No network")
    await context.setOffline(false)
    await page.goto(`${kitchen.url}/account`)
    await page.getByRole("button", { name: "Sign out" }).click()
    expect(await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))).toEqual([])

    await signIn(page, kitchen.url, "ben")
    await page.goto(kitchen.url + bake.ben)
    await expect.poll(() => queued(page)).toBe(0)
    const kept = await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))
    expect(kept.map((one) => one.words)).toEqual(["dough 24.5", "note Smells of apples"])
  })

  test("a page that is still open keeps back what its maker logged when somebody else has signed in", async () => {
    const { page, context } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    const other = await context.newPage()
    await context.clearCookies()
    await signIn(other, kitchen.url, "bea")
    await page.bringToFront()
    await log(page, "Dough temperature", { value: "24.5" })
    await page.locator("#waiting", { hasText: "until ben signs in again, and never sent as anybody else’s" }).waitFor()
    expect(await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))).toEqual([])
  })

  test("on a plain-http address the open page still keeps and sends, and says what cannot work there", async () => {
    const url = `http://oven.example:${kitchen.line.port}`
    const { page, context } = await benSignedIn(url)
    await page.goto(url + bake.ben)
    expect(await page.evaluate(() => [isSecureContext, "serviceWorker" in navigator, "locks" in navigator])).toEqual([
      false,
      false,
      false,
    ])
    await page.locator("#waiting", { hasText: "only on https do browsers let a page open without network" }).waitFor()
    await context.setOffline(true)
    await log(page, "Dough temperature", { value: "24.5" })
    await log(page, "Room temperature", { value: "21" })
    await expect.poll(async () => (await waiting(page)).length).toBe(2)
    await context.setOffline(false)
    await expect.poll(() => queued(page)).toBe(0)
    const kept = await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))
    expect(kept.map(({ words }) => words)).toEqual(["dough 24.5", "room 21"])
  })

  test("two pages of one bake double nothing", async () => {
    const { page, context } = await benSignedIn()
    await page.goto(kitchen.url + bake.ben)
    const second = await context.newPage()
    await second.goto(kitchen.url + bake.ben)
    await context.setOffline(true)
    for (const value of ["24", "24.5", "25"]) await log(page, "Dough temperature", { value })
    for (const value of ["20", "20.5"]) await log(second, "Room temperature", { value })
    await expect.poll(async () => (await waiting(page)).length).toBe(5)
    kitchen.line.loseAnswers(() => false)
    await context.setOffline(false)
    await expect.poll(() => queued(page)).toBe(0)
    for (const one of [page, second]) await one.locator("#waiting").waitFor({ state: "hidden" })

    expect(kitchen.line.sendings()).toBe(5)
    const kept = await kitchen.look((db) => whatIsKept(db, idIn(bake.ben)))
    expect(kept.map(({ words }) => words)).toEqual(["dough 24", "dough 24.5", "dough 25", "room 20", "room 20.5"])
  })
})

/** Logs something as a person would, and gives the moment of the tap. */
async function log(page: Page, what: string, fields: Record<string, string> = {}, photo?: Buffer) {
  const form = page.locator(`form[data-keeps="${what}"]`)
  await form.evaluate((element) => {
    for (let around = element.closest("details"); around; around = around.parentElement!.closest("details"))
      around.open = true
  })
  for (const [name, value] of Object.entries(fields)) await form.locator(`[name=${name}]`).fill(value)
  if (photo) {
    const picture = { name: "crust.jpg", mimeType: "image/jpeg", buffer: photo }
    await form.locator("[name=photo]").setInputFiles(picture)
  }
  return press(page, what)
}

async function press(page: Page, what: string, then = "oven:kept") {
  // the page says itself when the button was tapped: a busy machine may take long between here and there
  await page.evaluate(() => {
    const told = (name: string, value: string) => document.body.setAttribute(name, value)
    document.addEventListener("click", () => told("data-tapped", String(Date.now())), { once: true, capture: true })
    document.addEventListener("oven:kept", () => told("data-heard", ""), { once: true })
  })
  const loaded = then === "load" && page.waitForEvent("load")
  await page.locator(`form[data-keeps="${what}"] button:not([type=button])`).last().click()
  await loaded
  if (then !== "oven:kept") return Number.NaN
  await page.locator("body[data-heard]").waitFor()
  await page.evaluate(() => document.body.removeAttribute("data-heard"))
  return Number(await page.locator("body").getAttribute("data-tapped"))
}

/** What the server has of a bake, in the order it says it happened. */
async function whatIsKept(db: Db, bakeId: number) {
  const marks = (await listMarks(db, bakeId)).map(({ stageKey, startedAt }) => ({ words: stageKey, at: startedAt }))
  const readings = (await listReadings(db, bakeId)).map(({ kind, value, typed, takenAt }) => ({
    words: `${kind} ${value ?? typed}`,
    at: takenAt,
  }))
  const photos = (await listPhotos(db, bakeId)).map(({ takenAt }) => ({ words: "photo", at: takenAt }))
  expect(await db.$count(entries, eq(entries.bakeId, bakeId))).toBe(marks.length + readings.length + photos.length)
  return [...marks, ...readings, ...photos].toSorted((a, b) => +a.at - +b.at)
}
