import { readFile, rm } from "node:fs/promises"
import type { Browser, BrowserContextOptions, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { addCount } from "../../server/crumbs/queries.ts"
import { connect, type Db } from "../../server/db.ts"
import { seedDemo } from "../../server/demo/class.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { password } from "../../server/demo/people.ts"
import { measurePhoto } from "../../server/measuring/job.ts"
import { openMeasuringThread } from "../../server/measuring/thread.ts"
import { processPhoto } from "../../server/photos/processing.ts"
import { addPhoto } from "../../server/photos/queries.ts"
import { photoStore } from "../../server/photos/storage.ts"
import { chromiumPath, laptop, openBrowser, openWindow, phone, signedIn } from "../browser/chromium.ts"
import { emptyDataDir } from "../data-dir.ts"
import { type Service, startService } from "../service.ts"

const axe = await readFile(new URL(import.meta.resolve("axe-core/axe.min.js")), "utf8")
type Violation = { id: string; impact: string | null; nodes: { html: string; failureSummary: string }[] }

const forTeachers = [
  "/",
  "/account",
  "/kitchen",
  "/calendar",
  "/classes",
  "/classes/new",
  "/classes/1",
  "/classes/1/edit",
  "/classes/1/people",
  "/classes/1/invitations",
  "/classes/1/ingredients",
  "/classes/1/allergies",
  "/glossary",
  "/ingredients/1",
  "/formulas",
  "/formulas/new",
  "/formulas/import",
  "/formulas/1",
  "/formulas/1/edit",
  "/revisions/1",
  "/revisions/1/sheet",
  "/bake-days/1/wall-sheet",
  "/revisions/1/water",
  "/revisions/1/levain?day=1",
  "/revisions/1/scale",
  "/revisions/1/scale?by=class&class.people=9&variant=yeast&fit.piece=8+cm&fit.size=26+cm",
  "/bake-days/new",
  "/bake-days/1",
  "/bake-days/1/edit",
  "/bake-days/2/plan",
  "/bake-days/1/bill",
  "/bake-days/2/shopping",
  "/bake-days/1/table",
  "/bake-days/1/curves",
  "/bake-days/1/table?lined=reference&by=kitchen",
  "/bake-days/1/table?for=projector",
  "/formulas/1/table",
  "/classes/1/students/4/table",
  "/bake-days/1/wall",
  "/compare?bakes=1&bakes=2&bakes=4",
  "/bake-days/1/follow-up",
  "/bake-days/1/class",
  "/bake-days/1/export",
  "/bake-days/1/review",
  "/bake-days/1/review/edit",
  "/bake-days/1/review/draft",
  "/bake-days/1/review/screens/6",
  "/bake-days/1/review/screens/8",
  "/bake-days/1/recap",
  "/bakes/12/again",
  "/bakes/1",
  "/bakes/1/verdict",
  "/photos/00000000-0000-4000-8000-000000000001/crumb",
  "/photos/00000000-0000-4000-8000-000000000002/crumb",
  "/crumbs?photos=00000000-0000-4000-8000-000000000001,00000000-0000-4000-8000-000000000002",
  "/classes/1/crumb-truth",
  "/classes/1/calibration",
  "/bakes/1/deletion",
  "/questions",
  "/classes/999",
]
/** What is laid out anew where there is room; elsewhere a laptop only makes lines longer. */
const wide = new Set([
  "/bake-days/2/plan",
  "/revisions/1/water",
  "/revisions/1/levain?day=1",
  "/revisions/1/scale",
  "/revisions/1/scale?by=class&class.people=9&variant=yeast&fit.piece=8+cm&fit.size=26+cm",
  "/formulas/1",
  "/formulas/1/edit",
  "/classes/1/people",
  "/bake-days/1",
  "/bake-days/1/table",
  "/bake-days/1/curves",
  "/bake-days/1/follow-up",
  "/bake-days/1/class",
  "/bakes/12/again",
  "/bakes/1",
  "/bake-days/1/review",
  "/bake-days/1/review/edit",
  "/bake-days/1/review/screens/6",
  "/bake-days/1/review/screens/8",
  "/bakes/1/verdict",
  "/classes/1/calibration",
  "/questions",
])
const forStudents = [
  "/",
  "/bake-days/1/sheet",
  "/bake-days/1",
  "/bake-days/1/table",
  "/bake-days/1/curves",
  "/bake-days/1/review",
  "/bake-days/1/recap",
  "/bakes/1",
  "/bakes/2",
  "/bakes/1/verdict",
]

describe.skipIf(!chromiumPath)("every page, for everybody", () => {
  let browser: Browser
  let service: Service
  let dataDir: string
  let invitation: string

  beforeAll(async () => {
    dataDir = await emptyDataDir()
    const { db, close } = await connect({ url: "", dataDir })
    await seedDemo({ db, photoStore: photoStore(dataDir), now: new Date(), pictures: false })
    await addCrumbs(db, dataDir)
    invitation = `/join/${(await db.query.invitations.findFirst())!.token}`
    await close()
    service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" })
    browser = await openBrowser()
  })
  afterAll(async () => {
    await browser.close()
    await service.stop()
    await rm(dataDir, { recursive: true })
  })

  const sizes: [string, BrowserContextOptions][] = [
    ["phone", phone],
    ["laptop", laptop],
  ]
  test.each(sizes)("axe finds nothing serious on a %s, and nothing scrolls sideways", async (_size, options) => {
    const found: string[] = []
    const look = async (page: Page, paths: string[]) => {
      page.on("console", (message) => message.text().includes("Content Security Policy") && found.push(message.text()))
      const looked = paths.filter((path) => options === phone || wide.has(path))
      for (const path of looked) found.push(...(await troubleOn(page, service.url + path, options === phone)))
    }
    await look(await openWindow(browser, options), ["/sign-in", invitation])
    const enter = (name: string) => signedIn(browser, options, { url: service.url, name, password })
    await look(await enter("osric"), ["/accounts"])
    await look(await enter("marta"), forTeachers)
    await look(await enter("amparo"), forStudents)
    expect(found).toEqual([])
  })
})

/** Two crumbs of one bake, one of them measured and counted. */
async function addCrumbs(db: Db, dataDir: string) {
  const picture = await processPhoto(await drawCrumb({ seed: 31, proof: "well", widthPx: 1280 }))
  const { width, height } = picture
  for (const [nth, acrossMm] of [190, null].entries()) {
    const id = `00000000-0000-4000-8000-00000000000${nth + 1}`
    await photoStore(dataDir).keep(id, picture)
    const of = { bakeId: 1, userId: 4, subject: "crumb" as const, forClass: true, takenAt: new Date() }
    await addPhoto(db, { id, ...of, acrossMm, width, height })
    const thread = openMeasuringThread()
    if (nth === 0) await measurePhoto({ db, store: photoStore(dataDir), thread }, id)
    await thread.close()
  }
  const frame = { x: 0.45, y: 0.45, width: 0.1, height: 0.1 }
  await addCount(db, { photoId: "00000000-0000-4000-8000-000000000001", userId: 2, frame, count: 40 })
}

/** Colours are the same at any size, and looking at them takes most of the time: once is enough. */
async function troubleOn(page: Page, url: string, withColours: boolean) {
  await page.goto(url)
  const sideways = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth + 1)
  const { pathname } = new URL(url)
  return [...(sideways ? [`${pathname} scrolls sideways`] : []), ...(await seriousOn(page, pathname, withColours))]
}

async function seriousOn(page: Page, pathname: string, withColours: boolean) {
  // our own content policy refuses inline scripts, so axe comes in through the debugger
  await page.evaluate(axe)
  const violations = await page.evaluate(async (enabled) => {
    const { axe } = window as unknown as { axe: { run: (how: object) => Promise<{ violations: Violation[] }> } }
    const rules = { "color-contrast": { enabled } }
    return (await axe.run({ resultTypes: ["violations"], rules })).violations
  }, withColours)
  const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical")
  return serious.map(({ id, nodes }) => `${pathname} ${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary}`)
}
