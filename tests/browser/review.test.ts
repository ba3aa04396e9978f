import { randomUUID } from "node:crypto"
import { rm } from "node:fs/promises"
import type { Browser, BrowserContextOptions, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { hashPassword } from "../../server/accounts/passwords.ts"
import { addAccount } from "../../server/accounts/queries.ts"
import { connect, type Db } from "../../server/db.ts"
import { processPhoto } from "../../server/photos/processing.ts"
import { photoStore } from "../../server/photos/storage.ts"
import { classes, memberships, photos } from "../../server/schema.ts"
import { giveBakeDay } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"
import { crumbs } from "../photos/drawn.ts"
import { addBake, cold, warm } from "../reviews/class-day.ts"
import { type Service, startService } from "../service.ts"
import { chromiumPath, laptop, openBrowser, signedIn } from "./chromium.ts"
import { lettersOf } from "./pdf-words.ts"

const password = "rye and caraway"
const ways: [string, BrowserContextOptions][] = [
  ["with scripts", laptop],
  ["without scripts", { ...laptop, javaScriptEnabled: false }],
]

describe.skipIf(!chromiumPath)("a review, from the table to the printed page", () => {
  let browser: Browser
  let service: Service
  let dataDir: string
  const days: Day[] = []

  beforeAll(async () => {
    dataDir = await emptyDataDir()
    const { db, close } = await connect({ url: "", dataDir })
    const passwordHash = await hashPassword(password)
    // more than there are tests: one that is tried again begins anew
    for (let group = 1; group <= 6; group++) days.push(await bakedBy(db, dataDir, { group, passwordHash }))
    await close()
    service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
    await service.stop()
    await rm(dataDir, { recursive: true })
  })

  const newDay = () => days.pop()!
  const signInOf = (name: string, { group }: Day) => ({ url: service.url, name: `${name}${group}`, password })

  test.each(ways)("%s", async (_way, options) => {
    const day = newDay()
    const enter = (name: string) => signedIn(browser, options, signInOf(name, day))
    const ana = await enter("ana")
    await pickOnTheTable(ana, service.url + day.url)
    await assemble(ana)
    await publish(ana)

    const bea = await enter("bea")
    await expectRead(bea, service.url + day.url, day)
    await expectNothing(await enter("cleo"), service.url + day.url, day)
    await expectPrinted(bea)
    await withdraw(await enter("ben"), `${service.url}/bakes/${day.bens}`, day.bensCrumb)
    await expectWithdrawn([ana, bea], service.url + day.url, day)
  })

  test("what is written is kept by itself, and arrow keys lead through the screens", async () => {
    const day = newDay()
    const ana = await signedIn(browser, laptop, signInOf("ana", day))
    await ana.goto(`${service.url}${day.url}/review/edit`)
    const kept = ana.getByText(/^Saved \d/)
    await ana.getByLabel("What the class concluded").fill("Written and never sent.")
    await kept.waitFor()
    const again = ana.waitForResponse((response) => response.request().postData()?.includes("eight") ?? false)
    await ana.getByLabel("What to change next time").fill("Begin at eight.")
    await again
    await kept.waitFor()
    await ana.reload()
    expect(await ana.getByLabel("What the class concluded").inputValue()).toBe("Written and never sent.")
    expect(await ana.getByLabel("What to change next time").inputValue()).toBe("Begin at eight.")

    await publish(ana)
    await ana.getByRole("link", { name: "Show it to a room" }).click()
    await ana.getByText("1 of 3").waitFor()
    await ana.keyboard.press("ArrowRight")
    await ana.getByText("2 of 3").waitFor()
    expect(await ana.locator(".on-wall").innerText()).toContain("Written and never sent.")
    await ana.keyboard.press("ArrowLeft")
    await ana.getByText("1 of 3").waitFor()
  })
})

type Day = Awaited<ReturnType<typeof bakedBy>>

/** Ana's class, in which Ben and Bea have baked; each has a crumb for the class, Ben another for his instructors. */
async function bakedBy(db: Db, dataDir: string, { group, passwordHash }: { group: number; passwordHash: string }) {
  const person = async (name: string) =>
    (await addAccount(db, { signInName: `${name}${group}`, passwordHash, zone: "UTC" }))!
  const [ana, ben, bea] = [await person("ana"), await person("ben"), await person("bea")]
  await person("cleo")
  const [bakers] = await db
    .insert(classes)
    .values({ name: "Thursday bakers", place: "Weavers' Hall", zone: "UTC" })
    .returning()
  const member = (userId: number, role: "instructor" | "student", shownName: string) => ({
    classId: bakers!.id,
    userId,
    role,
    shownName,
  })
  await db
    .insert(memberships)
    .values([member(ana, "instructor", "Ana"), member(ben, "student", "Ben"), member(bea, "student", "Bea")])
  const day = await giveBakeDay(db, { classId: bakers!.id, ana: { id: ana } })
  const bens = await addBake(db, day, ben, warm, { kitchen: "attic kitchen" })
  const beas = await addBake(db, day, bea, cold)
  const picture = (userId: number, bakeId: number, forClass: boolean) =>
    addPicture(db, dataDir, { userId, bakeId, forClass })
  const pictures = {
    bensCrumb: await picture(ben, bens, true),
    bensOwn: await picture(ben, bens, false),
    beasCrumb: await picture(bea, beas, true),
  }
  return { group, url: `/bake-days/${day.bakeDayId}`, bens, ...pictures }
}

async function addPicture(db: Db, dataDir: string, of: { userId: number; bakeId: number; forClass: boolean }) {
  const id = randomUUID()
  const photo = await processPhoto(await crumbs(600, 450).jpeg().toBuffer())
  await photoStore(dataDir).keep(id, photo)
  const { width, height } = photo
  await db.insert(photos).values({ id, ...of, subject: "crumb", takenAt: new Date(), width, height })
  return id
}

async function pickOnTheTable(page: Page, url: string) {
  await page.goto(`${url}/table`)
  for (const name of ["Ben", "Bea"]) await page.getByLabel(new RegExp(`^Compare ${name}`)).check()
  await press(page, "Into the review")
  expect(
    await page
      .getByRole("checkbox", { name: /^(Ben|Bea) / })
      .evaluateAll((boxes) => boxes.map((box) => (box as HTMLInputElement).checked)),
  ).toEqual([true, true])
}

async function assemble(page: Page) {
  await page.getByLabel("Title").fill("Warm kitchens, cold kitchens")
  await page
    .getByLabel("What the class concluded")
    .fill("The **clock** lies.\n\n<script>alert(1)</script> The jar does not.")
  await page.getByLabel("What to change next time").fill("Begin at eight.")
  await page.getByLabel("Pair 1, one").selectOption({ label: "Ben" })
  await page.getByLabel("beside", { exact: true }).first().selectOption({ label: "Bea" })
  await page.getByLabel("Why these two").first().fill("One formula, six degrees apart.")
  await page.getByRole("checkbox", { name: /^How far each dough fermented/ }).check()
  await press(page, "Later: Bea")
  await page.getByText("Words to one student").click()
  await page.getByLabel("Bea", { exact: true }).fill("Bea, move the bowl.")
  await press(page, "Save the draft")
  await page.getByRole("link", { name: "See it as the class would" }).click()
  await page.getByText("A draft.").waitFor()
  await page.goBack()
}

async function publish(page: Page) {
  await press(page, "Publish it to the class")
  await page.locator(".review h1").waitFor()
}

async function expectRead(page: Page, url: string, { bensOwn, beasCrumb, bensCrumb }: Day) {
  await page.goto(new URL("/", url).href)
  await page.getByRole("link", { name: "The review of Tin loaf week is out" }).click()
  await page.getByRole("heading", { name: "Warm kitchens, cold kitchens" }).waitFor()
  const words = await page.locator(".review").innerText()
  for (const said of [
    "The clock lies.",
    "<script>alert(1)</script>",
    "One formula, six degrees apart.",
    "Bea, move the bowl.",
    "Begin at eight.",
  ])
    expect(words).toContain(said)
  expect(await page.locator(".review section > .reviewed h3").allInnerTexts()).toEqual([
    expect.stringMatching(/^Ben/),
    expect.stringMatching(/^Bea/),
  ])
  const shown = await page
    .locator(".review img")
    .evaluateAll((images) => images.map((image) => image.getAttribute("src")))
  expect(new Set(shown)).toEqual(new Set([`/photos/${bensCrumb}/small`, `/photos/${beasCrumb}/small`]))
  expect(await page.content()).not.toContain(bensOwn)
  expect((await page.request.get(new URL(`/photos/${bensOwn}/large`, url).href)).status()).toBe(404)
}

async function expectNothing(page: Page, url: string, { bensCrumb }: Day) {
  for (const address of [
    `${url}/review`,
    `${url}/review/editions/1`,
    `${url}/review/screens/1`,
    `${url}/recap`,
    new URL(`/photos/${bensCrumb}/large`, url).href,
  ])
    expect((await page.request.get(address)).status(), address).toBe(404)
  await page.goto(`${url}/review`)
  expect(await page.locator("main").innerText()).not.toMatch(/Ben|Bea|kitchens/)
}

/** A printed page says what the screen says: spaces apart, which a PDF has none of. */
async function expectPrinted(page: Page) {
  const letters = lettersOf(await page.pdf({ preferCSSPageSize: true }))
  for (const words of [
    "Warm kitchens, cold kitchens",
    "The clock lies.",
    "The jar does not.",
    "One formula, six degrees apart.",
    "well proofed",
    "underproofed",
    "How far each dough fermented",
    "Begin at eight.",
  ])
    expect(letters).toContain(words.replaceAll(" ", ""))
  for (const words of ["What the class says to it", "Show it to a room"])
    expect(letters).not.toContain(words.replaceAll(" ", ""))
}

async function withdraw(page: Page, bench: string, photo: string) {
  await page.goto(bench)
  const figure = page.locator(`#photo-${photo}`)
  await figure.getByText("Change or remove").click()
  await figure.getByRole("button", { name: "Remove this photo for good" }).click()
  await figure.waitFor({ state: "detached" })
}

async function expectWithdrawn(pages: Page[], url: string, { bensCrumb, beasCrumb }: Day) {
  for (const page of pages) {
    await page.goto(`${url}/review`)
    const html = await page.content()
    expect(html).toContain(beasCrumb)
    expect(html).not.toContain(bensCrumb)
    expect(await page.locator(".review").innerText()).toContain("attic kitchen")
    for (const size of ["small", "large"])
      expect((await page.request.get(new URL(`/photos/${bensCrumb}/${size}`, url).href)).status()).toBe(404)
  }
}

async function press(page: Page, name: string) {
  await page.getByRole("button", { name, exact: true }).first().click()
  await page.waitForLoadState("load")
}
