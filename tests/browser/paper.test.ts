import { rm } from "node:fs/promises"
import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { hashPassword } from "../../server/accounts/passwords.ts"
import { addAccount } from "../../server/accounts/queries.ts"
import { connect, type Db } from "../../server/db.ts"
import { classes, memberships } from "../../server/schema.ts"
import { giveBakeDay, tinLoaf } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"
import { bigFormula } from "../paper.ts"
import { type Service, startService } from "../service.ts"
import { chromiumPath, laptop, openBrowser, signedIn } from "./chromium.ts"
import { lettersOf } from "./pdf-words.ts"

const password = "rye and caraway"
const withoutScripts = { ...laptop, javaScriptEnabled: false }
const formats = ["A4", "Letter"] as const

describe.skipIf(!chromiumPath)("sheets on paper", () => {
  let browser: Browser
  let service: Service
  let dataDir: string
  let days: { small: Day; big: Day }

  beforeAll(async () => {
    dataDir = await emptyDataDir()
    const { db, close } = await connect({ url: "", dataDir })
    days = await classOfThirty(db)
    await close()
    service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
    await service.stop()
    await rm(dataDir, { recursive: true })
  })

  test("each is one page of A4 and of Letter, of a short formula and of a very long one, for a class of thirty", async () => {
    // what prints needs no scripts
    const page = await signedIn(browser, withoutScripts, { url: service.url, name: "ana", password })
    for (const [size, { bakeDayId, revisionId }] of Object.entries(days)) {
      const sheets = [`/revisions/${revisionId}/sheet`, `/bake-days/${bakeDayId}/sheet`]
      for (const url of [...sheets, `/bake-days/${bakeDayId}/wall-sheet`]) {
        await page.goto(service.url + url)
        expect(await page.getByText("longer than one page").count(), `${size} ${url}`).toBe(0)
        expect(await isCutOff(page), `${size} ${url}`).toBe(false)
        for (const format of formats) {
          const pdf = await page.pdf({ format, preferCSSPageSize: false })
          expect({ size, url, format, pages: pagesOf(pdf), cm: paperOf(pdf) }).toEqual({
            ...{ size, url, format, pages: 1, cm: format === "A4" ? [21, 29.7] : [21.6, 27.9] },
          })
        }
      }
    }
  })

  test("a sheet says on paper what its page says, and nothing of how to print it", async () => {
    const page = await signedIn(browser, withoutScripts, { url: service.url, name: "ana", password })
    await page.goto(`${service.url}/bake-days/${days.small.bakeDayId}/wall-sheet`)
    const letters = lettersOf(await page.pdf({ format: "A4" }))
    for (const words of ["Tin loaf week", "On the table", "Student 30", "bread flour", "Mind"])
      expect(letters).toContain(words.replaceAll(" ", ""))
    expect(letters).not.toContain("Printitwithyourbrowser")
  })
})

type Day = Awaited<ReturnType<typeof giveBakeDay>>

async function classOfThirty(db: Db) {
  const account = (signInName: string, passwordHash: string) =>
    addAccount(db, { signInName, passwordHash, zone: "UTC" }) as Promise<number>
  const ana = await account("ana", await hashPassword(password))
  const place = { name: "Thursday bakers", place: "Weavers' Hall", zone: "UTC" }
  const [group] = await db.insert(classes).values(place).returning()
  const classId = group!.id
  await db.insert(memberships).values({ classId, userId: ana, role: "instructor", shownName: "Ana" })
  for (let nth = 1; nth <= 30; nth++) {
    const shownName = nth === 1 ? "Somebody With-a-long Double-barrelled Name" : `Student ${nth}`
    const userId = await account(`student${nth}`, "none")
    await db.insert(memberships).values({ classId, userId, role: "student", shownName })
  }
  const given = (content = tinLoaf) => giveBakeDay(db, { classId, ana: { id: ana } }, { content })
  return { small: await given(), big: await given(bigFormula) }
}

const pagesOf = (pdf: Buffer) => pdf.toString("latin1").match(/\/Type \/Page\b(?!s)/g)?.length
/** Width and height of the first page, cm. */
function paperOf(pdf: Buffer) {
  const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf.toString("latin1")) ?? []
  return [width, height].map((points) => Math.round((Number(points) / 72) * 25.4) / 10)
}

/** Whether anything is wider than the sheet, and would be lost at its edge. */
const isCutOff = (page: Page) => page.locator(".paper").evaluate((sheet) => sheet.scrollWidth > sheet.clientWidth + 1)
