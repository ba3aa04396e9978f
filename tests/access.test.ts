import { TransactionRollbackError } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import sharp from "sharp"
import { makeLink } from "../server/accounts/queries.ts"
import { buildApp } from "../server/app.ts"
import { startBake } from "../server/bakes/queries.ts"
import { findFeed, makeFeed } from "../server/calendar/queries.ts"
import { invite } from "../server/classes/queries.ts"
import type { Db } from "../server/db.ts"
import { makePublicLink } from "../server/formulas/queries.ts"
import { addClassIngredient, listClassIngredients } from "../server/ingredients/queries.ts"
import { processPhoto } from "../server/photos/processing.ts"
import { emptyReview } from "../server/reviews/content.ts"
import { addEdition, addReviewComment, saveDraft } from "../server/reviews/queries.ts"
import {
  bringings,
  changes,
  comments,
  handCounts,
  judgements,
  photos,
  photoWishes,
  readings,
  reminders,
} from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, quiet, test } from "./test.ts"
import type { Visitor } from "./visitor.ts"

const people = ["stranger", "olga", "ana", "asta", "ben", "bea", "cleo", "dan"] as const

/**
 * Every route of the app and what becomes of each person, in the order above: a stranger; olga, the owner; ana,
 * who teaches the class and wrote its formula; asta, its assistant; ben, a student, whose bake and photo it is; bea, his
 * classmate; cleo, who teaches another class; dan, her student.
 *   + comes in    s is sent to sign in    - is told they may not    0 finds nothing
 */
const routes: Record<string, string> = {
  "GET /healthz": "++++++++",
  "GET /assets/*": "++++++++",
  "GET /assets/sheet.css": "++++++++",
  "GET /assets/side-by-side.css": "++++++++",
  "GET /assets/htmx.js": "++++++++",
  "GET /assets/all.js": "++++++++",
  "GET /worker.js": "++++++++",
  "GET /manifest.webmanifest": "++++++++",
  "GET /offline": "++++++++",
  "GET /": "s+++++++",
  "GET /glossary": "++++++++",

  "GET /setup/:token": "++++++++",
  "POST /setup/:token": "++++++++",
  "GET /sign-in": "++++++++",
  "POST /sign-in": "++++++++",
  "POST /sign-out": "s+++++++",
  "GET /new-password/:token": "++++++++",
  "POST /new-password/:token": "++++++++",
  "GET /account": "s+++++++",
  "POST /account/preferences": "s+++++++",
  "POST /account/password": "s+++++++",
  "GET /kitchen": "s+++++++",
  "POST /kitchen": "s+++++++",
  "GET /accounts": "s+------",
  "POST /accounts/:id/password-link": "s+------",

  "GET /classes": "s+++++++",
  "GET /classes/new": "s++---+-",
  "POST /classes": "s++---+-",
  "GET /classes/:id": "s+++++00",
  "GET /classes/:id/students/:person/table": "s+++++00",
  "GET /classes/:id/edit": "s++---00",
  "POST /classes/:id": "s++---00",
  "POST /classes/:id/name": "s+++++00",
  "POST /classes/:id/leaving": "s0-+++00",
  "GET /classes/:id/people": "s++---00",
  "POST /classes/:id/people/:person/role": "s++---00",
  "POST /classes/:id/people/:person/removal": "s++---00",
  "POST /classes/:id/people/:person/password-link": "s++---00",
  "GET /classes/:id/invitations": "s++---00",
  "POST /classes/:id/invitations": "s++---00",
  "POST /invitations/:id/revocation": "s++---00",
  "GET /classes/:id/calibration": "s+++++00",
  "GET /classes/:id/crumb-truth": "s+++--00",
  "GET /classes/:id/allergies": "s+++++00",
  "POST /classes/:id/allergies": "s0++++00",
  "GET /classes/:id/ingredients": "s+++++00",
  "POST /classes/:id/ingredients": "s++---00",
  "GET /ingredients/:id": "s++---00",
  "POST /ingredients/:id": "s++---00",
  "POST /ingredients/:id/removal": "s++---00",
  "GET /join/:token": "++++++++",
  "POST /join/:token": "++++++++",
  "POST /join/:token/with-my-account": "s+++++++",

  "GET /formulas": "s++---+-",
  "GET /formulas/new": "s++---+-",
  "GET /formulas/import": "s++---+-",
  "POST /formulas/import": "s++---+-",
  "POST /formulas/import/draft": "s++---+-",
  "POST /formulas": "s++---+-",
  "POST /formulas/figures": "s++---+-",
  "POST /formulas/:id/figures": "s++00000",
  "GET /formulas/:id": "s++00000",
  "GET /formulas/:id/edit": "s++00000",
  "GET /formulas/:id/water": "s++00000",
  "GET /formulas/:id/scale": "s++00000",
  "GET /formulas/:id/levain": "s++00000",
  "GET /formulas/:id/table": "s+++++00",
  "POST /formulas/:id": "s++00000",
  "POST /formulas/:id/revisions": "s++00000",
  "POST /formulas/:id/public-link": "s++00000",
  "POST /formulas/:id/public-link/removal": "s++00000",
  "POST /formulas/:id/stage-pictures": "s++00000",
  "POST /formulas/:id/stage-pictures/:photo/removal": "s++00000",
  "GET /revisions/:id": "s+++++00",
  "GET /revisions/:id/water": "s+++++00",
  "GET /revisions/:id/sheet": "s+++++00",
  "GET /revisions/:id/scale": "s+++++00",
  "GET /revisions/:id/levain": "s+++++00",
  "GET /open/:token": "++++++++",
  "GET /revisions/:id/formula.json": "s+++++00",
  "GET /revisions/:id/formula.csv": "s+++++00",
  "GET /revisions/:id/formula.txt": "s+++++00",
  "GET /open/:token/formula.json": "++++++++",
  "GET /open/:token/formula.csv": "++++++++",
  "GET /open/:token/formula.txt": "++++++++",
  "GET /schemas/formula-1.json": "++++++++",

  "GET /bake-days/new": "s++---+-",
  "POST /bake-days": "s++---+-",
  "GET /bake-days/:id": "s+++++00",
  "GET /bake-days/:id/edit": "s++---00",
  "POST /bake-days/:id": "s++---00",
  "POST /bake-days/:id/removal": "s++---00",
  "GET /bake-days/:id/plan": "s+++++00",
  "POST /bake-days/:id/plan": "s+++++00",
  "GET /bake-days/:id/day.ics": "s+++++00",
  "GET /bake-days/:id/sheet": "s+++++00",
  "GET /bake-days/:id/wall-sheet": "s+++++00",
  "GET /bake-days/:id/bill": "s+++++00",
  "GET /bake-days/:id/shopping": "s+++++00",
  "POST /bake-days/:id/bringings": "s+++++00",
  "POST /bringings/:id/removal": "s++-+-00",
  "GET /calendar": "s+++++++",
  "POST /calendar/address": "s+++++++",
  "POST /calendar/address/revocation": "s+++++++",
  "GET /feeds/:token.ics": "++++++++",
  "GET /bake-days/:id/table": "s+++++00",
  "GET /bake-days/:id/curves": "s+++++00",
  "GET /bake-days/:id/class": "s+++++00",
  "POST /bake-days/:id/class/draft": "s++---00",
  "GET /bake-days/:id/wall": "s+++++00",
  "GET /compare": "s+++++++",
  "GET /bake-days/:id/live": "s+++++00",
  "GET /schemas/bake-day-1.json": "++++++++",
  "GET /bake-days/:id/export": "s+++++00",
  "GET /bake-days/:id/export/readings.csv": "s+++++00",
  "GET /bake-days/:id/export/bakes.csv": "s+++++00",
  "GET /bake-days/:id/export/bake-day.json": "s+++++00",
  "GET /bake-days/:id/export/photos.zip": "s+++++00",
  "GET /bake-days/:id/follow-up": "s+++--00",
  "POST /bake-days/:id/reminders": "s+++--00",
  "POST /reminders/:id/seen": "s000+000",

  "GET /bake-days/:id/review": "s+++++00",
  "GET /bake-days/:id/review/editions/:edition": "s+++++00",
  "GET /bake-days/:id/review/screens/:screen": "s+++++00",
  "GET /bake-days/:id/recap": "s+++++00",
  "GET /bake-days/:id/review/draft": "s++---00",
  "GET /bake-days/:id/review/edit": "s++---00",
  "POST /bake-days/:id/review": "s++---00",
  "POST /bake-days/:id/review/editions": "s++---00",
  "POST /bake-days/:id/review/comments": "s+++++00",
  "POST /review-comments/:id/removal": "s++++-00",

  "POST /bake-days/:id/bakes": "s+++++00",

  "GET /bakes/:id": "s+++++00",
  "GET /bakes/:id/live": "s+++++00",
  "GET /bakes/:id/again": "s+++++00",
  "POST /bakes/:id/marks": "s++++-00",
  "POST /bakes/:id/marks/:stage": "s++++-00",
  "POST /bakes/:id/marks/:stage/restoration": "s++++-00",
  "POST /bakes/:id/readings": "s++++-00",
  "POST /bakes/:id/readings/:reading": "s++++-00",
  "POST /bakes/:id/readings/:reading/removal": "s++++-00",
  "POST /bakes/:id/readings/:reading/restoration": "s++++-00",
  "POST /bakes/:id/changes": "s++++-00",
  "POST /bakes/:id/changes/:change": "s++++-00",
  "POST /bakes/:id/changes/:change/removal": "s++++-00",
  "POST /bakes/:id/changes/:change/restoration": "s++++-00",
  "POST /bakes/:id/cues": "s++++-00",
  "POST /bakes/:id/pieces": "s++++-00",
  "POST /bakes/:id/photos": "s++++-00",
  "POST /bakes/:id/photos/:photo": "s++++-00",
  "POST /bakes/:id/photos/:photo/scale": "s++++-00",
  "POST /bakes/:id/result": "s++++-00",
  "POST /bakes/:id/kitchen": "s++++-00",
  "POST /bakes/:id/completion": "s++++-00",
  "POST /bakes/:id/abandonment": "s++++-00",
  "POST /bakes/:id/reopening": "s++++-00",
  "GET /bakes/:id/verdict": "s+++++00",
  "POST /bakes/:id/judgements": "s++-+-00",
  "POST /bakes/:id/judgements/:judgement/removal": "s---+-00",
  "GET /bakes/:id/deletion": "s++-+-00",
  "POST /bakes/:id/deletion": "s++-+-00",
  "POST /bakes/:id/comments": "s+++++00",
  "POST /comments/:id/removal": "s++-+-00",
  "GET /questions": "s+++--+-",
  "GET /questions/count": "s+++--+-",
  "GET /questions/live": "s+++--+-",
  "POST /questions/:id/answers": "s+++--00",
  "POST /bakes/:id/photos/:photo/wishes": "s++---00",
  "POST /bakes/:id/wishes/:wish/answer": "s---+-00",
  "POST /bakes/:id/wishes/:wish/removal": "s++---00",
  "GET /photos/:photo/:size": "0+++++00",
  "POST /photos/:photo/visibility": "s---+-00",
  "POST /photos/:photo/removal": "s++++-00",
  "GET /photos/:photo/crumb": "s+++++00",
  "GET /photos/:photo/crumb/live": "s+++++00",
  "GET /photos/:photo/crumb/even": "s+++++00",
  "POST /photos/:photo/crumb/again": "s++++-00",
  "POST /photos/:photo/crumb/area": "s++++-00",
  "POST /photos/:photo/crumb/ruler": "s++++-00",
  "POST /photos/:photo/crumb/counts": "s+++--00",
  "POST /hand-counts/:id/removal": "s0+00000",
  "GET /crumbs": "s+++++++",
}

test("every route of the app is in this table, and the table has no other", async ({ app }) => {
  expect((await listRoutes(app)).toSorted()).toEqual(Object.keys(routes).toSorted())
})

test("a route that does not say who may call it stops the app", ({ app, db, dataDir }) => {
  expect(app).toBeDefined()
  const another = buildApp({ db, settings: { ...quiet, DATA_DIR: dataDir } })
  expect(() => another.get("/secrets", async () => "all of them")).toThrow("GET /secrets does not say who may call it.")
})

test("every person meets what the table says", async ({ app, db, cast }) => {
  const world = await buildWorld(app, db, cast)
  const met: Record<string, string> = {}
  for (const route of Object.keys(routes)) {
    met[route] = ""
    for (const person of people) met[route] += await tryAs(cast[person].elsewhere(), route, world)
  }
  expect(met).toEqual(routes)
})

async function listRoutes(app: FastifyInstance) {
  const fresh = buildApp({ db: app.db, settings: app.settings })
  const found: string[] = []
  fresh.addHook("onRoute", ({ method, url }) => {
    for (const one of [method].flat()) if (one !== "HEAD") found.push(`${one} ${url}`)
  })
  await fresh.ready()
  await fresh.close()
  return [...new Set(found)]
}

type World = Awaited<ReturnType<typeof buildWorld>>

/** One of everything: what stands in a route's :id and other places. */
async function buildWorld(app: FastifyInstance, db: Db, cast: Cast) {
  const { bakeDayId, formulaId, revisionId } = await giveBakeDay(db, cast)
  await makePublicLink(db, formulaId)
  await invite(db, cast.classId, "student")
  const bakeId = await startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  const [reading] = await db
    .insert(readings)
    .values({ bakeId, entryId: crypto.randomUUID(), kind: "note", takenAt: new Date(), typed: "smells of apples" })
    .returning()
  const [change] = await db.insert(changes).values({ bakeId, kind: "oven", words: "neighbour’s" }).returning()
  const picture = {
    userId: cast.ben.id,
    subject: "crumb" as const,
    takenAt: new Date(),
    forClass: true,
    width: 60,
    height: 40,
  }
  const [photo] = await db
    .insert(photos)
    .values({ ...picture, bakeId })
    .returning()
  const [wish] = await db
    .insert(photoWishes)
    .values({ photoId: photo!.id, formulaId, stageKey: "bulk", look: "ready", askedBy: cast.ana.id })
    .returning()
  const [comment] = await db
    .insert(comments)
    .values({ bakeId, photoId: photo!.id, userId: cast.ben.id, words: "", asks: true })
    .returning()
  const [reminder] = await db
    .insert(reminders)
    .values({ bakeDayId, userId: cast.ben.id, sentBy: cast.ana.id })
    .returning()
  const [stagePicture] = await db
    .insert(photos)
    .values({ ...picture, userId: cast.ana.id, formulaId, stageKey: "bulk" })
    .returning()
  const [judgement] = await db
    .insert(judgements)
    .values({ bakeId, userId: cast.ben.id, by: "baker", call: "over" })
    .returning()
  const [bringing] = await db.insert(bringings).values({ bakeDayId, userId: cast.ben.id, thing: "salt" }).returning()
  const reviewId = await publishedReview(db, bakeDayId, cast.ana.id)
  const remark = { reviewId, userId: cast.ben.id, words: "Mine too." }
  const jpeg = await sharp({ create: { width: 60, height: 40, channels: 3, background: "tan" } })
    .jpeg()
    .toBuffer()
  const processed = await processPhoto(jpeg)
  const keepFile = async () => {
    await app.photoStore.keep(photo!.id, processed)
    await app.photoStore.keepEven(photo!.id, jpeg)
  }
  const frame = { x: 0.4, y: 0.4, width: 0.1, height: 0.1 }
  const [counted] = await db
    .insert(handCounts)
    .values({ photoId: photo!.id, userId: cast.ana.id, frame, count: 12 })
    .returning()
  const [formula, invitation] = [await db.query.formulas.findFirst(), await db.query.invitations.findFirst()]
  await makeFeed(db, cast.ben.id)
  const feed = await findFeed(db, cast.ben.id)
  await addClassIngredient(db, cast.classId, ownFlour)
  const [ingredient] = await listClassIngredients(db, cast.classId)
  return {
    db,
    keepFile,
    places: {
      "/setup/:token": `/setup/${await makeLink(db, { purpose: "setup" }, 1)}`,
      "/new-password/:token": `/new-password/${await makeLink(db, { purpose: "password", userId: cast.dan.id }, 1)}`,
      "/join/:token": `/join/${invitation!.token}`,
      "/open/:token": `/open/${formula!.publicToken}`,
      "/feeds/:token": `/feeds/${feed!.token}`,
      "/accounts/:id": `/accounts/${cast.bea.id}`,
      "/classes/:id": `/classes/${cast.classId}`,
      "/invitations/:id": `/invitations/${invitation!.id}`,
      "/ingredients/:id": `/ingredients/${ingredient!.id}`,
      "/formulas/:id/stage-pictures/:photo": `/formulas/${formulaId}/stage-pictures/${stagePicture!.id}`,
      "/formulas/:id": `/formulas/${formulaId}`,
      "/revisions/:id": `/revisions/${revisionId}`,
      "/bake-days/:id": `/bake-days/${bakeDayId}`,
      "/bakes/:id": `/bakes/${bakeId}`,
      "/photos/:photo": `/photos/${photo!.id}`,
      "/:wish": `/${wish!.id}`,
      "/hand-counts/:id": `/hand-counts/${counted!.id}`,
      "/:judgement": `/${judgement!.id}`,
      "/bringings/:id": `/bringings/${bringing!.id}`,
      "/reminders/:id": `/reminders/${reminder!.id}`,
      "/:edition": "/1",
      "/:screen": "/1",
      "/review-comments/:id": `/review-comments/${await addReviewComment(db, remark)}`,
      "/comments/:id": `/comments/${comment!.id}`,
      "/questions/:id": `/questions/${comment!.id}`,
      "/:person": `/${cast.bea.id}`,
      "/:reading": `/${reading!.id}`,
      "/:change": `/${change!.id}`,
      "/:stage": "/bulk",
      "/:size": "/small",
      "/assets/*": "/assets/oven.css",
    },
  }
}

/** The first edition of a review in which nothing stands but its title. */
async function publishedReview(db: Db, bakeDayId: number, publishedBy: number) {
  const draft = emptyReview("Tin loaf week")
  const saving = await saveDraft(db, bakeDayId, { draft, basedOn: "", over: "", now: new Date() })
  const { id } = "saved" in saving ? saving.saved : saving.theirs
  const kept = { bakes: [], plots: [], names: [], class: { bakes: 0, calls: {} } }
  await addEdition(db, id, { content: { ...draft, kept }, whatChanged: "", publishedBy })
  return id
}

const ownFlour = {
  ...{ name: "Mill Lane flour", kind: "flour" as const, per100g: {}, portions: [], remark: "" },
  ...{ usAllergens: ["wheat"], euAllergens: ["cereals containing gluten"] },
}

/** Tries a route as somebody, and takes back whatever that changed. */
async function tryAs(visitor: Visitor, route: string, { db, keepFile, places }: World) {
  const [method, pattern] = route.split(" ") as ["GET" | "POST", string]
  const url = Object.entries(places).reduce((path, [place, value]) => path.replace(place, value), pattern)
  if (pattern.startsWith("/photos/")) await keepFile()
  let outcome = "?"
  const run = db.transaction(async (tx) => {
    outcome = outcomeOf(await (method === "GET" ? visitor.open(url) : visitor.submit(url)))
    tx.rollback()
  })
  await run.catch((error) => {
    if (!(error instanceof TransactionRollbackError)) throw error
  })
  return outcome
}

function outcomeOf({ status, location = "" }: { status: number; location?: string }) {
  if (status === 404) return "0"
  if (status === 403) return "-"
  if (status === 303 && location.startsWith("/sign-in")) return "s"
  return status < 500 ? "+" : `(${status})`
}
