import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { partsOf, stageIn } from "../server/questions/mentions.ts"
import { comments, memberships, photos, readings } from "../server/schema.ts"
import { minutesAgo, read, started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

/** Ben's bake with a photo of its bulk, and what people do there. */
async function baking(db: Db, cast: Cast, forClass = true) {
  const bake = await started(db, cast)
  const [photo] = await db
    .insert(photos)
    .values({
      ...{
        userId: cast.ben.id,
        bakeId: bake.id,
        subject: "dough",
        stageKey: "bulk",
        takenAt: minutesAgo(10),
        forClass,
      },
      ...{ width: 60, height: 40 },
    })
    .returning()
  const about = `photo-${photo!.id}`
  const say = (who: Visitor, fields: Record<string, string>) =>
    who.submit(`${bake.url}/comments`, { entryId: randomUUID(), about, says: "says", words: "", ...fields })
  const ask = (fields: Record<string, string> = {}) => say(cast.ben, { says: "asks", ...fields })
  return { ...bake, about, photoId: photo!.id, say, ask }
}

const threadOn = ({ page }: Page, key: string) =>
  wordsOf(page.getElementById(`thread-${key}`)?.querySelector(".said") ?? null)
const waiting = ({ page }: Page) => page.querySelectorAll("#waiting-questions .questions > li")
const inHead = ({ page }: Page) => wordsOf(page.getElementById("open-questions"))
const questionId = async (db: Db) => (await db.query.comments.findFirst({ where: eq(comments.asks, true) }))!.id

test("one tap asks whether a photo looks right, and the staff see it on every page", async ({ db, cast }) => {
  const { ask } = await baking(db, cast)
  expect((await ask()).status).toBe(303)
  for (const who of [cast.ana, cast.asta, cast.olga]) {
    expect(inHead(await who.open("/account"))).toBe("1 waiting")
    const [question] = waiting(await who.open("/questions"))
    expect(wordsOf(question!)).toContain("Ben, Bulk")
    expect(wordsOf(question!)).toContain("Does this look right?")
    expect(wordsOf(question!)).toContain("waiting 0 min")
    expect(question!.querySelector("img")).not.toBeNull()
  }
  for (const who of [cast.ben, cast.bea]) expect((await who.open("/account")).text).not.toContain("/questions")
  expect(waiting(await cast.cleo.open("/questions"))).toEqual([])
  expect(inHead(await cast.cleo.open("/account"))).toBe("")
})

test("an answer stands under the photo and at the top of the student's page, new since they asked", async ({
  db,
  cast,
}) => {
  const { url, ask, about } = await baking(db, cast)
  await ask({ words: "It is very slack." })
  const answers = `/questions/${await questionId(db)}/answers`
  expect((await cast.ana.submit(answers, { words: "Give it two folds, then wait." })).location).toBe("/questions")

  const bench = await cast.ben.open(url)
  expect(threadOn(bench, about)).toMatch(
    /^You · .* Does this look right\? It is very slack\..* Ana, staff · .* new since you asked Give it two folds/,
  )
  expect(wordsOf(bench.page.getElementById("answered"))).toMatch(/^Ana, .*: Give it two folds, then wait\. new since/)
  expect(wordsOf(bench.page.querySelector("#questions .threads"))).toContain("new since you asked")
  expect(wordsOf((await cast.bea.open(url)).page.getElementById("answered"))).toBe("")
  expect(waiting(await cast.ana.open("/questions"))).toEqual([])
  expect((await cast.ana.open("/questions")).text).toContain("Answered lately")
})

test("an assistant's words on the bench answer a question, a classmate's do not", async ({ db, cast }) => {
  const { ask, say } = await baking(db, cast)
  await ask()
  expect((await say(cast.bea, { words: "Mine looked like that." })).status).toBe(303)
  await say(cast.ben, { words: "Thanks." })
  expect(waiting(await cast.ana.open("/questions"))).toHaveLength(1)
  await say(cast.asta, { words: "Yes, shape it now." })
  expect(waiting(await cast.ana.open("/questions"))).toEqual([])
})

test("words under another thing do not answer", async ({ db, cast }) => {
  const { ask, say } = await baking(db, cast)
  await ask()
  await say(cast.ana, { about: "bake", words: "Good start." })
  expect(waiting(await cast.ana.open("/questions"))).toHaveLength(1)
})

test("who asked may settle it, and ask again later", async ({ db, cast }) => {
  const { url, ask, say, about } = await baking(db, cast)
  await say(cast.ben, { says: "settles" })
  expect(await db.$count(comments)).toBe(0)
  await ask()
  await say(cast.ben, { says: "settles" })
  expect(waiting(await cast.ana.open("/questions"))).toEqual([])
  expect(threadOn(await cast.ben.open(url), about)).toContain("settled")
  await ask()
  expect(waiting(await cast.ana.open("/questions"))).toHaveLength(1)
})

test("the question that has waited longest is on top", async ({ db, cast }) => {
  const { ask, say } = await baking(db, cast)
  await ask({ words: "the photo" })
  await say(cast.ben, { about: "bake", says: "asks", words: "the whole" })
  await db
    .update(comments)
    .set({ madeAt: minutesAgo(25) })
    .where(eq(comments.words, "the whole"))
  const shown = waiting(await cast.ana.open("/questions")).map(wordsOf)
  expect(shown[0]).toContain("waiting 25 min")
  expect(shown[0]).toContain("the whole")
  expect(shown[1]).toContain("the photo")
})

test("a question about a reading shows its value, and stands in the log", async ({ db, cast }) => {
  const { url, say } = await baking(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "31" })
  const [reading] = await db.select().from(readings)
  await say(cast.ben, { about: `reading-${reading!.id}`, says: "asks", words: "Too warm?" })
  expect(wordsOf(waiting(await cast.ana.open("/questions"))[0]!)).toContain("Dough 31 °C")
  expect(wordsOf((await cast.ben.open(url)).page.querySelector("#questions .threads"))).toContain("Dough 31 °C")
})

test("the thread of a photo for instructors only is hidden from classmates", async ({ db, cast }) => {
  const { url, ask, say, about } = await baking(db, cast, false)
  await ask({ words: "A secret bread." })
  expect((await cast.bea.open(url)).text).not.toContain("A secret bread.")
  expect((await cast.asta.open(url)).text).toContain("A secret bread.")
  const refused = await say(cast.bea, { words: "Nice." })
  expect(refused.status).toBe(422)
  expect(await db.$count(comments)).toBe(1)
  expect((await cast.bea.submit(`/comments/${await questionId(db)}/removal`)).status).toBe(404)
  expect(about).toContain("photo-")
})

test("strangers to the class find nothing, and neither do classmates of a bake that is not shared", async ({
  db,
  cast,
}) => {
  const { url, say } = await baking(db, cast)
  for (const who of [cast.cleo, cast.dan]) expect((await say(who, { words: "Hello." })).status).toBe(404)
  expect((await say(cast.stranger, { words: "Hello." })).location).toContain("/sign-in")
  await cast.ben.submit(`${url}/kitchen`, { kitchen: "" })
  expect((await say(cast.bea, { words: "Hello." })).status).toBe(404)
  expect((await say(cast.ana, { words: "Hello." })).status).toBe(303)
})

test("what is taken back leaves its place and none of its words", async ({ db, cast }) => {
  const { url, ask, about } = await baking(db, cast)
  await ask({ words: "Is my oven on fire?" })
  const removal = `/comments/${await questionId(db)}/removal`
  for (const who of [cast.asta, cast.bea]) expect((await who.submit(removal)).status).toBe(403)
  expect((await cast.ben.submit(removal)).status).toBe(303)
  const shown = await cast.ben.open(url)
  expect(threadOn(shown, about)).toContain("taken back")
  expect(shown.text).not.toContain("on fire")
  expect(waiting(await cast.ana.open("/questions"))).toEqual([])
  expect((await db.query.comments.findFirst())!.words).toBe("")
})

test("an instructor may take back anybody's words", async ({ db, cast }) => {
  const { say } = await baking(db, cast)
  await say(cast.bea, { words: "Unkind." })
  const { id } = (await db.query.comments.findFirst())!
  expect((await cast.ana.submit(`/comments/${id}/removal`)).status).toBe(303)
  expect((await db.query.comments.findFirst())!.removedAt).not.toBeNull()
})

test("an answer that is taken back leaves the question waiting", async ({ db, cast }) => {
  const { ask, say } = await baking(db, cast)
  await ask()
  await say(cast.ana, { words: "Wrong photo, sorry." })
  const answer = (await db.query.comments.findFirst({ where: eq(comments.userId, cast.ana.id) }))!
  await cast.ana.submit(`/comments/${answer.id}/removal`)
  expect(waiting(await cast.ana.open("/questions"))).toHaveLength(1)
})

test.for([
  ["no words", { words: " " }, "Write something first."],
  ["too many words", { words: "x".repeat(1001) }, "Keep it under 1000 characters."],
  ["too many words of a question", { says: "asks", words: "x".repeat(1001) }, "Keep it under 1000 characters."],
] as const)("%s: refused beside the field", async ([, wrong, message], { db, cast }) => {
  const { say, about } = await baking(db, cast)
  await say(cast.ben, { words: "So that there is a thread." })
  const { status, page } = await say(cast.ben, wrong)
  expect(status).toBe(422)
  const says = "says" in wrong ? "asks" : "says"
  expect(wordsOf(page.getElementById(`${says}-${about}-words-error`))).toBe(message)
  expect(await db.$count(comments)).toBe(1)
})

test.for(["photo-nonsense", "photo-00000000-0000-4000-8000-000000000000", "reading-1", "reading-99999999999", "cat"])(
  "nothing is said about %s",
  async (about, { db, cast }) => {
    const { say } = await baking(db, cast)
    expect((await say(cast.ben, { about, words: "Hello." })).status).toBe(422)
    expect(await db.$count(comments)).toBe(0)
  },
)

test("an answer without words is refused beside its field", async ({ db, cast }) => {
  const { ask } = await baking(db, cast)
  await ask()
  const id = await questionId(db)
  const { status, page } = await cast.ana.submit(`/questions/${id}/answers`, { words: "" })
  expect(status).toBe(422)
  expect(wordsOf(page.getElementById(`answer-${id}-words-error`))).toBe("Write something first.")
  for (const who of [cast.ben, cast.bea])
    expect((await who.submit(`/questions/${id}/answers`, { words: "Yes." })).status).toBe(403)
  expect((await cast.cleo.submit(`/questions/${id}/answers`, { words: "Yes." })).status).toBe(404)
})

test("a question sent twice is asked once", async ({ db, cast }) => {
  const { ask } = await baking(db, cast)
  const entryId = randomUUID()
  expect((await ask({ entryId })).status).toBe(303)
  expect((await ask({ entryId })).status).toBe(303)
  expect((await ask({ entryId, words: "Or so?" })).status).toBe(422)
  expect(await db.$count(comments)).toBe(1)
})

test("a question that waited on a phone says when it was asked, and no earlier words answer it", async ({
  db,
  cast,
}) => {
  const { url, say, about } = await baking(db, cast)
  await say(cast.ana, { words: "Lovely colour." })
  const sent = { "oven-viewer": String(cast.ben.id), "oven-sent-at": new Date().toISOString() }
  const pressed = { "oven-pressed-at": minutesAgo(40).toISOString() }
  const form = { "content-type": "application/x-www-form-urlencoded", ...sent, ...pressed }
  await cast.ben.send("POST", `${url}/comments`, `about=${about}&says=asks`, form)
  const [question] = waiting(await cast.ana.open("/questions"))
  expect(wordsOf(question!)).toContain("waiting 40 min")
})

test("a person who leaves the staff no longer answers", async ({ db, cast }) => {
  const { ask, say } = await baking(db, cast)
  await ask()
  await say(cast.asta, { words: "Yes." })
  await db.update(memberships).set({ role: "student" }).where(eq(memberships.userId, cast.asta.id))
  expect(waiting(await cast.ana.open("/questions"))).toHaveLength(1)
  expect((await cast.asta.open("/questions")).status).toBe(403)
})

test("the name of a stage becomes a link to it, and nothing else that people write does", async ({ db, cast }) => {
  const { url, say } = await baking(db, cast)
  await say(cast.ben, { words: 'Is Bulk over? See https://x.example <b onclick="x">now</b>' })
  const thread = (await cast.ben.open(url)).page.querySelector(".said .words")!
  expect(thread.querySelectorAll("a").map((link) => link.getAttribute("href"))).toEqual(["#stage-bulk"])
  expect(thread.querySelector("[onclick]")).toBeNull()
  expect((await db.query.comments.findFirst())!.stageKey).toBe("bulk")
})

test("a comment on the bake may choose its stage", async ({ db, cast }) => {
  const { url, say } = await baking(db, cast)
  await say(cast.bea, { about: "bake", words: "How long will you leave it?", stageKey: "proof" })
  expect(threadOn(await cast.ben.open(url), "bake")).toContain("about Proof")
  expect((await say(cast.bea, { about: "bake", words: "And?", stageKey: "banneton" })).status).toBe(422)
})

const stages = [
  { key: "bulk", name: "Bulk" },
  { key: "proof", name: "Proof" },
  { key: "last", name: "Final proof (tin)" },
]
test.each([
  ["Bulk, then Proof", ["bulk", "proof"]],
  ["in bulk, Bulky and Proofer", []],
  ["the Final proof (tin) is over", ["last"]],
  ["", []],
])("“%s” names %o", (words, keys) => {
  const parts = partsOf(words, stages)
  expect(parts.flatMap(({ stageKey }) => stageKey ?? [])).toEqual(keys)
  expect(parts.map(({ text }) => text).join("")).toBe(words)
  expect(stageIn(words, stages)).toBe(keys[0] ?? null)
})
