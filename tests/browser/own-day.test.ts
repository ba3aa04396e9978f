import { readFile, rm } from "node:fs/promises"
import ICAL from "ical.js"
import type { Browser, BrowserContextOptions } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { hashPassword } from "../../server/accounts/passwords.ts"
import { addAccount } from "../../server/accounts/queries.ts"
import { connect } from "../../server/db.ts"
import { keepKitchen } from "../../server/kitchens/queries.ts"
import { classes, memberships } from "../../server/schema.ts"
import { dayOf } from "../../server/web/zones.ts"
import { giveBakeDay } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"
import { type Service, startService } from "../service.ts"
import { chromiumPath, laptop, openBrowser, phone, signedIn } from "./chromium.ts"

const password = "rye and caraway"
const day = dayOf(new Date(Date.now() + 2 * 86_400_000), "UTC")
const ways: [string, string, BrowserContextOptions][] = [
  ["with scripts", "ben", phone],
  ["without scripts", "bea", { ...laptop, javaScriptEnabled: false }],
]

describe.skipIf(!chromiumPath)("an own day, from a warmer room to the calendar", () => {
  let browser: Browser
  let service: Service
  let dataDir: string
  let url: string

  beforeAll(async () => {
    dataDir = await emptyDataDir()
    url = await coldKitchens(dataDir)
    service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
    await service.stop()
    await rm(dataDir, { recursive: true })
  })

  test.each(ways)("%s", async (_way, name, options) => {
    const scripts = options.javaScriptEnabled !== false
    const page = await signedIn(browser, options, { url: service.url, name, password })
    await page.goto(service.url + url)
    const answer = page.locator(".own-day-answer .big")
    const begins = answer.locator("b").first()
    const look = async () => (scripts ? undefined : page.getByRole("button", { name: "Look at it" }).click())

    await page.getByLabel("Eat it on").fill(day)
    await page.getByLabel("at", { exact: true }).fill("19:00")
    await look()
    await page.getByText("Only looked at so far.").waitFor()
    await answer.filter({ hasText: "19:00" }).waitFor()
    const cold = await begins.innerText()
    await page.getByLabel("Room that day").fill("26")
    await look()
    await begins.filter({ hasNotText: cold }).waitFor()
    const warm = await begins.innerText()
    expect(warm > cold, `${warm} at 26 °C, after ${cold} at 20 °C`).toBe(true)
    expect(await page.getByLabel("Room that day").inputValue()).toBe("26")

    // typed while the answers to what was typed before are still on their way, as on a slow line
    if (scripts) await page.route(/plan\?/, (route) => setTimeout(() => route.continue().catch(() => {}), 1500))
    await page.getByLabel("Room that day").fill("25")
    await page.getByLabel("at", { exact: true }).fill("18:55")
    await page.getByLabel("Not before").fill(`${day}T11:30`)
    await look()
    const broken = page.getByRole("heading", { name: "It does not fit" })
    await broken.waitFor()
    const offered = page.locator(".own-day-suggestions li").first()
    const [, table] = /· on the table (.*)/.exec(await offered.innerText())!
    await offered.getByRole("button", { name: "Take this" }).click()
    await page.waitForURL(service.url + url)
    await broken.waitFor({ state: "detached" })
    expect(await answer.innerText()).toContain(table!.trim())

    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Put it into your calendar" }).click(),
    ])
    const file = ICAL.parse(await readFile((await download.path())!, "utf8"))
    const events = new ICAL.Component(file).getAllSubcomponents("vevent").map((event) => new ICAL.Event(event))
    const first = Math.min(...events.map(({ startDate }) => +startDate.toJSDate()))
    expect(new Date(first).toISOString().slice(11, 16)).toBe(await begins.innerText())
  })
})

/** Ana's class and two students whose kitchens are at 20 °C; the address of their day. */
async function coldKitchens(dataDir: string) {
  const { db, close } = await connect({ url: "", dataDir })
  const passwordHash = await hashPassword(password)
  const [ana, ...students] = await Promise.all(
    ["ana", "ben", "bea"].map((signInName) => addAccount(db, { signInName, passwordHash, zone: "UTC" })),
  )
  const [group] = await db.insert(classes).values({ name: "Thursday bakers", place: "Hall", zone: "UTC" }).returning()
  const settings = { temperatureUnit: "C", massUnit: "g", measures: "metric", clock: "24", zone: "UTC" } as const
  for (const userId of students) {
    await db
      .insert(memberships)
      .values({ classId: group!.id, userId: userId!, role: "student", shownName: `Student ${userId}` })
    await keepKitchen(db, userId!, { roomC: { value: 20, known: "measured", typed: "20 °C" } }, settings)
  }
  const { bakeDayId } = await giveBakeDay(db, { classId: group!.id, ana: { id: ana! } })
  await close()
  return `/bake-days/${bakeDayId}/plan`
}
