import { existsSync } from "node:fs"
import { eq } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import sharp from "sharp"
import { addStagePicture, makePublicLink } from "../server/formulas/queries.ts"
import { processPhoto } from "../server/photos/processing.ts"
import { type Look, photos, photoWishes } from "../server/schema.ts"
import { started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const jpeg = (background = "#b9aa8a") =>
  sharp({ create: { width: 64, height: 48, channels: 3, background } })
    .jpeg()
    .toBuffer()

/** Ben's bake, and a way to give its formula pictures. */
async function baking(app: FastifyInstance, cast: Cast) {
  const bake = await started(app.db, cast)
  const formulaId = (await app.db.query.formulas.findFirst())!.id
  const show = async (look: Look, stageKey = "mix") =>
    addStagePicture(app.db, app.photoStore, await processPhoto(await jpeg()), {
      ...{ formulaId, userId: cast.ana.id, stageKey, look },
    })
  return { ...bake, formulaId, show }
}

/** Somebody sends a photo of ben's dough. */
async function sent({ db }: FastifyInstance, url: string, who: Visitor, stageKey = "mix", forClass = "on") {
  const file = { field: "photo", name: "dough.jpg", type: "image/jpeg", bytes: await jpeg("#eadcb8") }
  await who.upload(`${url}/photos`, { subject: "dough", stageKey, forClass, takenAt: "" }, file)
  return (await db.query.photos.findMany()).filter(({ bakeId, userId }) => bakeId && userId === who.id).at(-1)!
}

/** Ben's photo, for which ana asks. */
async function asked(app: FastifyInstance, cast: Cast) {
  const bake = await baking(app, cast)
  const photo = await sent(app, bake.url, cast.ben)
  const wishesUrl = `${bake.url}/photos/${photo.id}/wishes`
  expect((await cast.ana.submit(wishesUrl, { stageKey: "bulk", look: "ready" })).status).toBe(303)
  const [wish] = await app.db.query.photoWishes.findMany()
  const answerUrl = `${bake.url}/wishes/${wish!.id}/answer`
  const answer = (who: Visitor, said: string) => who.submit(answerUrl, { answer: said, look: "ready" })
  const copies = () => app.db.query.photos.findMany({ where: eq(photos.copiedFrom, photo.id) })
  return { ...bake, photo, wishesUrl, wish: wish!, answerUrl, answer, copies }
}

const like = ({ page }: Page) => page.querySelectorAll("#now #like figure").map((figure) => wordsOf(figure))
const filesOf = (app: FastifyInstance, id: string) =>
  (["large", "small"] as const).map((size) => existsSync(app.photoStore.path(id, size)))

test("the bench shows how the stage looks ready, too early and too far, and then one's own beside it", async ({
  app,
  cast,
}) => {
  const { url, show } = await baking(app, cast)
  for (const look of ["too-far", "ready", "too-early"] as const) await show(look)
  expect(like(await cast.ben.open(url))).toEqual(["too early", "ready", "too far"])

  const { takenAt } = await sent(app, url, cast.ben)
  const at = takenAt.toLocaleTimeString("en-GB", { timeZone: "Europe/Lisbon", hour: "2-digit", minute: "2-digit" })
  expect(like(await cast.ben.open(url))).toEqual(["too early", `yours ${at}`, "ready", "too far"])
  expect(like(await cast.ana.open(url))).toContain(`Ben’s ${at}`)
})

test("the looks are those of the stage that runs, and no photo of another stage stands beside them", async ({
  app,
  cast,
}) => {
  const { url, show } = await baking(app, cast)
  await show("ready", "bulk")
  await sent(app, url, cast.ben, "mix")
  expect(like(await cast.ben.open(url))).toEqual([])
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "start" })
  expect(like(await cast.ben.open(url))).toEqual(["ready"])
})

test("a classmate's photo for instructors only is not shown beside the looks", async ({ app, cast }) => {
  const { url, show } = await baking(app, cast)
  await show("ready")
  await sent(app, url, cast.ben, "mix", "")
  expect(like(await cast.bea.open(url))).toEqual(["ready"])
  expect(like(await cast.ben.open(url))).toHaveLength(2)
})

test("the formula and the schedule name each look in words", async ({ app, cast }) => {
  const { bakeDayId, formulaId, show } = await baking(app, cast)
  for (const look of ["too-far", "ready", "too-early"] as const) await show(look, "bulk")
  for (const page of [`/formulas/${formulaId}`, `/bake-days/${bakeDayId}`]) {
    const looks = (await cast.ana.open(page)).page.querySelectorAll(".looks figure")
    expect(looks.map(wordsOf)).toEqual(["too early", "ready", "too far"])
  }
})

test("an instructor adds one look or all three at once", async ({ app, cast }) => {
  const { formulaId } = await baking(app, cast)
  const form = new FormData()
  form.append("stageKey", "bulk")
  for (const look of ["ready", "too-far"]) form.append(look, new Blob([new Uint8Array(await jpeg())]), `${look}.jpg`)
  form.append("too-early", new Blob([]), "")
  const request = new Request("http://localhost", { method: "POST", body: form })
  const body = Buffer.from(await request.arrayBuffer())
  const type = { "content-type": request.headers.get("content-type")! }
  const { status } = await cast.ana.send("POST", `/formulas/${formulaId}/stage-pictures`, body, type)
  expect(status).toBe(303)
  expect((await app.db.query.photos.findMany()).map(({ look }) => look).toSorted()).toEqual(["ready", "too-far"])
})

test("a wish reaches the student on the bench and on the front page, and says who will see the photo", async ({
  app,
  cast,
}) => {
  const { url } = await asked(app, cast)
  for (const page of [url, "/"]) {
    const said = wordsOf((await cast.ben.open(page)).page.querySelector(".consent"))
    expect(said).toContain("Ana would like to show your photo as a picture of Bulk, ready.")
    expect(said).toContain("everybody who is given this formula, now or later, sees a copy")
    expect(said).toContain("anyone with its public link")
    expect(said).toContain("You can take your yes back at any time")
  }
  expect((await cast.bea.open(url)).page.querySelector(".consent")).toBeNull()
})

test("nothing is shown before the student's own yes, and nobody can say it for them", async ({ app, cast }) => {
  const { answer, copies } = await asked(app, cast)
  for (const who of [cast.ana, cast.asta, cast.olga, cast.bea]) expect((await answer(who, "yes")).status).toBe(403)
  expect((await answer(cast.cleo, "yes")).status).toBe(404)
  expect(await copies()).toEqual([])
})

test("with a yes a copy is seen by the class and by the public link, without the student's name", async ({
  app,
  cast,
}) => {
  const { answer, copies, formulaId, bakeDayId } = await asked(app, cast)
  expect((await answer(cast.ben, "yes")).status).toBe(303)

  const [copy] = await copies()
  expect(copy).toMatchObject({ formulaId, stageKey: "bulk", look: "ready", bakeId: null })
  expect(filesOf(app, copy!.id)).toEqual([true, true])
  const shown = await cast.bea.open(`/bake-days/${bakeDayId}`)
  expect(shown.page.querySelector(`.looks img[src*="${copy!.id}"]`)).not.toBeNull()
  expect(wordsOf(shown.page.querySelector("#schedule"))).not.toContain("Ben")
  expect((await cast.stranger.open(`/photos/${copy!.id}/small`)).status).toBe(404)
  await makePublicLink(app.db, formulaId)
  expect((await cast.stranger.open(`/photos/${copy!.id}/small`)).status).toBe(200)
})

test("a yes sent twice makes one copy, and leaves no file of another", async ({ app, cast }) => {
  const { answerUrl, copies } = await asked(app, cast)
  const said = { answer: "yes", look: "ready", entryId: crypto.randomUUID() }
  await cast.ben.submit(answerUrl, said)
  await cast.ben.submit(answerUrl, said)
  await cast.ben.submit(answerUrl, { ...said, entryId: crypto.randomUUID() })
  expect(await copies()).toHaveLength(1)
})

test("a yes taken back removes the copy and its files", async ({ app, cast }) => {
  const { answer, copies, url } = await asked(app, cast)
  await answer(cast.ben, "yes")
  const [copy] = await copies()
  expect(wordsOf((await cast.ben.open(url)).page.querySelector(".consent"))).toContain("Take my yes back")

  await answer(cast.ben, "no")

  expect(await copies()).toEqual([])
  expect(filesOf(app, copy!.id)).toEqual([false, false])
  expect((await cast.ben.open(`/photos/${copy!.id}/small`)).status).toBe(404)
})

test("removing the photo removes the copy and its files as well", async ({ app, cast }) => {
  const { answer, copies, photo } = await asked(app, cast)
  await answer(cast.ben, "yes")
  const [copy] = await copies()
  await cast.ben.submit(`/photos/${photo.id}/removal`)
  expect(await app.db.$count(photos)).toBe(0)
  expect(filesOf(app, copy!.id)).toEqual([false, false])
})

test("deleting the bake removes the copy and its files as well", async ({ app, cast }) => {
  const { answer, copies, url } = await asked(app, cast)
  await answer(cast.ben, "yes")
  const [copy] = await copies()
  await cast.ben.submit(`${url}/deletion`)
  expect(await app.db.$count(photos)).toBe(0)
  expect(filesOf(app, copy!.id)).toEqual([false, false])
})

test("an instructor who removes the picture has to ask again", async ({ app, cast }) => {
  const { answer, copies, formulaId, wishesUrl } = await asked(app, cast)
  await answer(cast.ben, "yes")
  const [copy] = await copies()
  await cast.ana.submit(`/formulas/${formulaId}/stage-pictures/${copy!.id}/removal`)
  expect(await app.db.$count(photoWishes)).toBe(0)
  expect(filesOf(app, copy!.id)).toEqual([false, false])
  expect((await cast.ana.submit(wishesUrl, { stageKey: "bulk", look: "ready" })).status).toBe(303)
})

test("a yes to a look that the instructor has changed meanwhile is asked for again", async ({ app, cast }) => {
  const { answer, copies, wishesUrl } = await asked(app, cast)
  await cast.ana.submit(wishesUrl, { stageKey: "bulk", look: "too-far" })
  const { status, text } = await answer(cast.ben, "yes")
  expect(status).toBe(422)
  expect(text).toContain("The wish has changed; read it again.")
  expect(await copies()).toEqual([])
})

test("a no is not asked again", async ({ app, cast }) => {
  const { answer, wishesUrl, photo, copies } = await asked(app, cast)
  await answer(cast.ben, "no")
  const again = await cast.ana.submit(wishesUrl, { stageKey: "bulk", look: "ready" })
  expect(again.status).toBe(422)
  expect(wordsOf(again.page.getElementById(`wish-${photo.id}-stageKey-error`))).toBe("The baker said no to this stage.")
  expect(await copies()).toEqual([])
})

test("a wish for no stage, or no look, is refused beside its field", async ({ app, cast }) => {
  const { wishesUrl, photo } = await asked(app, cast)
  const { status, page } = await cast.ana.submit(wishesUrl, { stageKey: "banneton", look: "lovely" })
  expect(status).toBe(422)
  const said = (field: string) => wordsOf(page.getElementById(`wish-${photo.id}-${field}-error`))
  expect(said("stageKey")).toBe("This formula has no such stage.")
  expect(said("look")).toBe("Choose which look it shows.")
})

test("what an assistant sent for the student is not asked for", async ({ app, cast }) => {
  const { url } = await baking(app, cast)
  const photo = await sent(app, url, cast.asta)
  const { status } = await cast.ana.submit(`${url}/photos/${photo.id}/wishes`, { stageKey: "bulk", look: "ready" })
  expect(status).toBe(404)
  expect((await cast.ana.open(url)).text).not.toContain("Ask to show it")
})

test("only an instructor of the class who may write the formula asks", async ({ app, cast }) => {
  const { url } = await baking(app, cast)
  const photo = await sent(app, url, cast.ben)
  const wishes = (who: Visitor) => who.submit(`${url}/photos/${photo.id}/wishes`, { stageKey: "bulk", look: "ready" })
  for (const who of [cast.asta, cast.ben, cast.bea]) expect((await wishes(who)).status).toBe(403)
  for (const who of [cast.cleo, cast.dan]) expect((await wishes(who)).status).toBe(404)
  expect((await wishes(cast.olga)).status).toBe(303)
})
