import { randomUUID } from "node:crypto"
import { rm } from "node:fs/promises"
import type { Browser, BrowserContextOptions, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { buildApp } from "../../server/app.ts"
import { startBake } from "../../server/bakes/queries.ts"
import { connect } from "../../server/db.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { processPhoto } from "../../server/photos/processing.ts"
import { addPhoto } from "../../server/photos/queries.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"
import { type Service, startService } from "../service.ts"
import { chromiumPath, laptop, openBrowser, openWindow, phone } from "./chromium.ts"

describe.skipIf(!chromiumPath)("a crumb", () => {
  let browser: Browser
  let service: Service
  let dataDir: string
  let session: string
  const id = randomUUID()

  beforeAll(async () => {
    dataDir = await emptyDataDir()
    const { db, close } = await connect({ url: "", dataDir })
    const app = buildApp({ db, settings: { PUBLIC_URL: "", DATA_DIR: dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] } })
    await app.ready()
    const cast = await gatherCast(app)
    const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
    const bakeId = await startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
    const picture = await processPhoto(await drawCrumb({ seed: 31, proof: "well", widthPx: 1280 }))
    await app.photoStore.keep(id, picture)
    const told = { subject: "crumb" as const, takenAt: new Date(), forClass: true }
    const { width, height } = picture
    await addPhoto(db, { id, bakeId, userId: cast.ben.id, ...told, width, height })
    session = (await app.people.createSession(cast.ben.id, {})).id
    await app.close()
    await close()
    service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
    await service.stop()
    await rm(dataDir, { recursive: true })
  })

  async function opened(options: BrowserContextOptions) {
    const page = await openWindow(browser, options)
    await page.context().addCookies([{ name: "common_oven", value: session, url: service.url }])
    await page.goto(`${service.url}/photos/${id}/crumb`)
    return page
  }
  const numbers = (page: Page) => page.locator(".crumb-numbers")

  test("its numbers come by themselves, a corner moves by finger and by keyboard, and a scale gives square millimetres", async () => {
    const page = await opened(phone)
    await numbers(page).getByRole("rowheader", { name: "Visible cell area Of the marked crumb" }).waitFor()
    expect(await numbers(page).innerText()).toContain("of the area")

    await page.getByText("The area to measure").click()
    const corner = page.getByRole("button", { name: /^Corner 1:/ })
    await corner.focus()
    const [field, before] = [page.locator("#x1"), Number(await page.locator("#x1").inputValue())]
    await page.keyboard.press("Shift+ArrowLeft")
    expect(Number(await field.inputValue())).toBeCloseTo(before - 5, 1)
    const box = (await corner.boundingBox())!
    await page.mouse.move(box.x + 22, box.y + 22)
    await page.mouse.down()
    await page.mouse.move(box.x + 12, box.y + 22)
    await page.mouse.up()
    expect(Number(await field.inputValue())).toBeLessThan(before - 5)
    await page.getByRole("button", { name: "Measure this area" }).click()
    await page.getByText("as marked").waitFor()

    await page.getByText("Its scale").click()
    await page.getByLabel("Or its length").fill("95 mm")
    await page.getByRole("button", { name: "Keep the scale" }).click()
    await numbers(page).getByText("Cells per cm²").waitFor()
    await page.getByLabel("Outline the cells").uncheck()
    await page.locator(".crumb-cells").waitFor({ state: "hidden" })
    await page.context().close()
  })

  test("without a script the same is said in numbers", async () => {
    const page = await opened({ ...laptop, javaScriptEnabled: false })
    await page.getByText("The area to measure").click()
    await page.getByText("Corners as numbers").click()
    for (const [n, [x, y]] of [
      [40, 40],
      [65, 40],
      [65, 70],
      [40, 70],
    ].entries()) {
      await page.locator(`#x${n + 1}`).fill(String(x))
      await page.locator(`#y${n + 1}`).fill(String(y))
    }
    for (let n = 5; n <= 12; n++) for (const axis of ["x", "y"]) await page.locator(`#${axis}${n}`).fill("")
    await page.getByRole("button", { name: "Measure this area" }).click()
    await expect
      .poll(async () => {
        await page.getByRole("link", { name: "Look again" }).click()
        return numbers(page).count()
      })
      .toBe(1)
    expect(await page.locator(".crumb-edge").getAttribute("points")).toBe("512,384 832,384 832,672 512,672")
    await page.context().close()
  })
})
