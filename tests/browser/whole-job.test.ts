import { rm } from "node:fs/promises"
import type { Browser, BrowserContextOptions, Page } from "playwright-core"
import sharp from "sharp"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { emptyDataDir } from "../data-dir.ts"
import { type Service, startService } from "../service.ts"
import { chromiumPath, openBrowser, openWindow, phone } from "./chromium.ts"

/**
 * A published worked example: the poolish baguette of the "Wild Yeast" baker's percentage tutorial, 2 340 g of dough, and what
 * it prints for it: flour 1 368 g, hydration 68.4 %, salt 1.97 %, prefermented flour 34.2 %.
 */
const poolish = [
  ["468 g", "bread flour"],
  ["468 g", "water"],
  ["0.3 g", "instant yeast"],
]
const finalDough = [
  ["900 g", "bread flour"],
  ["468 g", "water"],
  ["9 g", "instant yeast"],
  ["27 g", "salt"],
]

const ways: [string, BrowserContextOptions][] = [
  ["on a phone", phone],
  ["on a phone without JavaScript", { ...phone, javaScriptEnabled: false }],
]

describe.skipIf(!chromiumPath)("the whole job in one go", () => {
  let browser: Browser
  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
  })

  test.each(ways)("%s", async (_way, options) => {
    const dataDir = await emptyDataDir()
    const service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    try {
      const olga = await openWindow(browser, options)
      const invitation = await openClass(olga, service)
      await publishFormula(olga, service)
      const bakeDay = await giveBakeDay(olga, service)

      const ben = await joinClass(browser, options, invitation, "Ben")
      await logBake(ben, bakeDay, { doughC: "24", start: "50", now: "76", dent: "slowly", baked: "980 g" })
      const bea = await joinClass(browser, options, invitation, "Bea")
      await logBake(bea, bakeDay, { doughC: "28", start: "40 mm", now: "80 mm", dent: "stays", baked: "1010 g" })

      await expectTable(bea, bakeDay)
    } finally {
      await service.stop()
      await rm(dataDir, { recursive: true })
    }
  })
})

async function openClass(page: Page, service: Service) {
  await page.goto(await service.said(/http\S+\/setup\/\S+/))
  await page.getByLabel("Name to sign in with").fill("olga")
  await page.getByLabel("Password").fill("four loaves a day")
  await page.getByLabel("Your time zone").selectOption("UTC")
  await press(page, "Make the owner's account")

  await page.getByRole("link", { name: "Open a class" }).click()
  await page.getByLabel("Name of the class").fill("Thursday bakers")
  await page.getByLabel("Place").fill("Weavers' Hall")
  await page.getByLabel("The name the class sees for you").fill("Olga")
  await press(page, "Open the class")
  await page.getByRole("link", { name: "Invite people" }).click()
  await press(page, "Make an invitation link")
  await page.getByAltText(/^QR code/).waitFor()
  return await page.locator("code.link").innerText()
}

async function publishFormula(page: Page, service: Service) {
  await page.goto(`${service.url}/formulas/new`)
  await page.getByLabel("Name of the formula").fill("Poolish baguette")
  await page.locator('[name="parts.0.name"]').fill("Poolish")
  await fillLines(page, 0, poolish)
  await fillLines(page, 1, finalDough)
  await press(page, "Save", 0)

  const figures = page.locator("dl.figures").first()
  for (const printed of ["2340 g", "1368 g", "68.4 %", "1.97 %", "34.2 %"])
    expect(await spoken(figures)).toContain(printed)
  await press(page, "Publish as revision 1")
  await page.getByRole("link", { name: "Revision 1", exact: true }).waitFor()
}

async function fillLines(page: Page, part: number, lines: string[][]) {
  for (const [index, [quantity, ingredient]] of lines.entries()) {
    await page.locator(`[name="parts.${part}.lines.${index}.quantity"]`).fill(quantity!)
    await page.locator(`[name="parts.${part}.lines.${index}.ingredient"]`).fill(ingredient!)
  }
}

async function giveBakeDay(page: Page, service: Service) {
  await page.goto(`${service.url}/bake-days/new`)
  await page.getByLabel("Class").selectOption({ label: "Thursday bakers" })
  await page.getByLabel("Formula").selectOption({ label: "Poolish baguette, revision 1" })
  await page.getByLabel("Name of the bake day").fill("Baguette weekend")
  await page.getByLabel("First day").fill(dayFromNow(-1))
  await page.getByLabel("Last day").fill(dayFromNow(1))
  await page.getByLabel("Rise before shaping").fill("50 %")
  await press(page, "Give it to the class")
  expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("Baguette weekend")
  return page.url()
}

async function joinClass(browser: Browser, options: BrowserContextOptions, invitation: string, name: string) {
  const page = await openWindow(browser, options)
  await page.goto(invitation)
  await page.getByLabel("The name the class sees").fill(name)
  await page.getByLabel("Name to sign in with").fill(name.toLowerCase())
  await page.getByLabel("Password").fill("rye and caraway")
  await page.getByLabel("Your time zone").selectOption("UTC")
  await press(page, "Join the class")
  return page
}

type Logged = { doughC: string; start: string; now: string; dent: string; baked: string }

/** Bulk for 5 h, half an hour of shaping, proof for 1 h 30: 7 h from the start of bulk to the oven. */
async function logBake(page: Page, bakeDay: string, logged: Logged) {
  await page.goto(bakeDay)
  await press(page, "Start your bake")
  await press(page, "Start Mix the levain")
  await press(page, "End Mix the levain")
  await correctTimes(page, "Bulk", -9, -4)
  await correctTimes(page, "Proof", -3.5, -2)

  await read(page, "Dough", { "Dough temperature, °C": logged.doughC }, "Keep dough temperature", -8)
  await read(page, "Jar", { "Jar at the start": logged.start, "Jar now": logged.now }, "Keep rise", -4.5)
  await openDetails(page, /^Finger test/)
  await takenEarlier(page, "#finger-takenAt", -2)
  await page.locator("#reading-finger").getByRole("button", { name: logged.dent }).click()
  await kept(page, "#reading-finger", logged.dent)

  await openDetails(page, /^What it shows/)
  await page.getByLabel("It shows").selectOption({ label: "crumb" })
  await page
    .getByLabel("From the gallery")
    .setInputFiles({ name: "crumb.jpg", mimeType: "image/jpeg", buffer: await camera(logged.doughC.length) })
  await press(page, "Add the photos")
  await page.getByAltText(/^Crumb/).waitFor()
  await openDetails(page, /^Note the result/)
  await page.getByLabel("Dough mass").fill("1130 g")
  await page.getByLabel("Baked mass").fill(logged.baked)
  await press(page, "Keep the result")
  await press(page, "Finish this bake")
  await page.getByRole("heading", { name: "Finished" }).waitFor()
}

async function correctTimes(page: Page, stage: string, from: number, to: number) {
  const place = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: stage, exact: true }) })
  await place.locator("summary").first().click()
  await place.getByLabel("Started").fill(hoursFromNow(from))
  await place.getByLabel("Ended").fill(hoursFromNow(to))
  await place.getByRole("button", { name: "Keep the times" }).click()
  await place.locator(".as", { hasText: /^actual\s+\d/ }).waitFor()
}

async function read(page: Page, name: string, values: Record<string, string>, button: string, at: number) {
  const kind = name === "Jar" ? "rise" : name.toLowerCase()
  await openDetails(page, new RegExp(`^${name}`))
  for (const [label, value] of Object.entries(values)) await page.getByLabel(label).fill(value)
  await takenEarlier(page, `#${kind}-takenAt`, at)
  await press(page, button)
  await kept(page, `#reading-${kind}`, Object.values(values).at(-1)!.replace(/ mm$/, ""))
}

const openDetails = (page: Page, summary: RegExp) =>
  page.locator("summary").filter({ hasText: summary }).first().click()

async function takenEarlier(page: Page, field: string, at: number) {
  await page.locator(`details:has(> div ${field}) > summary`).last().click()
  await page.locator(field).fill(hoursFromNow(at))
}

const kept = (page: Page, place: string, words: string) =>
  page.locator(`${place} > summary`).filter({ hasText: words }).waitFor()

/** At 24 °C an hour is a reference hour; at 28 °C it is 1.304 of them with baker's yeast (cardinal model, Rosso et al. 1995). */
async function expectTable(page: Page, bakeDay: string) {
  await page.goto(`${bakeDay}/table`)
  const rowOf = async (name: string) =>
    spoken(page.locator("tbody.bake").filter({ has: page.getByRole("link", { name, exact: true }) }))
  const [ben, bea] = [await rowOf("Ben"), await rowOf("Bea")]
  expect(ben).toContain("7.0 ref h")
  expect(ben).toContain("+52 %")
  expect(ben).toContain("24 °C")
  expect(bea).toContain("9.1 ref h")
  expect(bea).toContain("+100 %")
  expect(bea).toContain("28 °C")
  const picture = page.getByAltText(/^Crumb of Ben/).first()
  expect(await picture.evaluate((image: HTMLImageElement) => image.decode().then(() => image.naturalWidth))).toBe(480)
}

async function press(page: Page, name: string, index = 0) {
  await page.getByRole("button", { name, exact: true }).nth(index).click()
  await page.waitForLoadState("load")
}

const spoken = async (place: ReturnType<Page["locator"]>) => (await place.innerText()).replace(/\s+/g, " ")

/** Of the test: what lies hours before it lies as far apart however long the test takes. */
const now = Math.floor(Date.now() / 60_000) * 60_000
const hoursFromNow = (hours: number) => new Date(now + hours * 3_600_000).toISOString().slice(0, 16)
const dayFromNow = (days: number) => hoursFromNow(24 * days).slice(0, 10)

const camera = (seed: number) =>
  sharp({ create: { width: 1200, height: 900, channels: 3, background: { r: 200, g: 180 - seed, b: 140 } } })
    .withExif({ IFD3: { GPSLatitude: "38/1 42/1 0/1" } })
    .jpeg()
    .toBuffer()
