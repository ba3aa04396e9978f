import { eq } from "drizzle-orm"
import { startBake } from "../server/bakes/queries.ts"
import { makeFeed } from "../server/calendar/queries.ts"
import { invite, listInvitations } from "../server/classes/queries.ts"
import type { Db } from "../server/db.ts"
import { classes, memberships } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

const line = (ingredient: string) => ({
  ...{ quantity: "20 g", readAs: "", ingredient, note: "", countsAs: "" as const },
})
const sesameLoaf = {
  ...tinLoaf,
  parts: tinLoaf.parts.map((part) =>
    part.goesInto ? part : { ...part, lines: [...part.lines, line("Mill Lane mix")] },
  ),
  finishing: [line("toasted sesame seeds")],
}
const stated = { allergies: "sesame", allergyWords: "quinces" }

const states = (visitor: Visitor, classId: number, fields: Record<string, string> = stated) =>
  visitor.submit(`/classes/${classId}/allergies`, fields)

test("a student states allergies, finds them again, and takes them back", async ({ cast }) => {
  const url = `/classes/${cast.classId}/allergies`
  const kept = await states(cast.ben, cast.classId)
  expect([kept.status, kept.location]).toEqual([303, `${url}?kept=yes`])

  const { page } = await cast.ben.open(url)
  expect(page.querySelectorAll("input[checked]").map((box) => box.getAttribute("value"))).toEqual(["sesame"])
  expect(page.querySelector("#allergyWords")!.text).toBe("quinces")

  await states(cast.ben, cast.classId, { allergyWords: "" })
  expect((await cast.ben.open(url)).page.querySelectorAll("input[checked]")).toEqual([])
})

test("what cannot be ticked is refused, and what was typed stays", async ({ cast }) => {
  const form = new URLSearchParams([
    ["allergies", "sesame"],
    ["allergies", "gravel"],
    ["allergyWords", "kiwi"],
  ])
  const { status, page } = await cast.ben.submit(`/classes/${cast.classId}/allergies`, form)
  expect(status).toBe(422)
  expect(page.querySelector("#allergies-error")!.text).toContain("Tick only what is on the list")
  expect(page.querySelector("#allergyWords")!.text).toBe("kiwi")
  expect(page.querySelector("input[value=sesame]")!.hasAttribute("checked")).toBe(true)
})

test("far too much in one's own words is refused beside the field", async ({ cast }) => {
  const { status, page } = await states(cast.ben, cast.classId, { allergyWords: "kiwi ".repeat(200) })
  expect(status).toBe(422)
  expect(page.querySelector("#allergyWords-error")!.text).toBe("Keep it under 500 characters.")
})

test("they can be stated on joining, with an account and without", async ({ cast, db }) => {
  await invite(db, cast.classId, "student")
  const { token } = (await listInvitations(db, cast.classId))[0]!
  expect(wordsOf((await cast.stranger.open(`/join/${token}`)).page)).toContain("Allergies, if you have any")
  await cast.dan.submit(`/join/${token}/with-my-account`, { shownName: "Dan", allergies: "milk" })
  const account = { signInName: "eve", password: "rye and caraway", zone: "UTC" }
  await cast.stranger.submit(`/join/${token}`, { ...account, shownName: "Eve", allergyWords: "poppy" })

  const { page } = await cast.ana.open(`/classes/${cast.classId}/allergies`)
  expect(page.querySelectorAll(".allergy-met > div").map(wordsOf)).toEqual(["Danmilk", "Evepoppy"])
})

test("the instructor sees who meets what on the bake day and on its revision: surely, perhaps, and what to look at", async ({
  cast,
  db,
}) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast, { content: sesameLoaf })
  await states(cast.ben, cast.classId)
  for (const teacher of [cast.ana, cast.olga])
    for (const url of [`/bake-days/${bakeDayId}`, `/revisions/${revisionId}`]) {
      const [ben] = (await teacher.open(url)).page.querySelectorAll(".allergy-met > div")
      expect(wordsOf(ben!.querySelector("dt")), url).toBe("Ben")
      expect(ben!.querySelectorAll("li").map(wordsOf)).toEqual([
        "sesame, from the topping (toasted sesame seeds)",
        "look: Mill Lane mix, in Final dough: nobody here knows what is in it; read its pack",
        "look: quinces: no name here gives it away, which does not mean that it is not there",
      ])
    }
})

test("and already when choosing a revision for a bake day, before anything is kept", async ({ cast, db }) => {
  const { revisionId } = await giveBakeDay(db, cast, { content: sesameLoaf })
  await states(cast.ben, cast.classId)
  const typed = { classId: String(cast.classId), revisionId: String(revisionId), title: "Seeds" }
  const { status, page } = await cast.ana.submit("/bake-days", { ...typed, look: "allergies" })
  expect(status).toBe(200)
  expect(wordsOf(page.querySelector("#allergies-ahead"))).toContain("Ben sesame, from the topping")
  expect(page.querySelector("#title")!.getAttribute("value")).toBe("Seeds")

  const another = await cast.cleo.submit("/bake-days", { ...typed, look: "allergies" })
  expect(wordsOf(another.page.querySelector("#allergies-ahead"))).toBe("")
})

test("the student sees on the bake day what is theirs, and no one else's", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, { content: sesameLoaf })
  await states(cast.ben, cast.classId)
  await states(cast.bea, cast.classId, { allergies: "mustard" })
  const { page } = await cast.ben.open(`/bake-days/${bakeDayId}`)
  const mine = wordsOf(page.querySelector(".allergy-note"))
  expect(mine).toContain("sesame, from the topping")
  expect(mine).not.toContain("mustard")
  expect(page.querySelectorAll(".allergy-note").length).toBe(1)
})

test("nobody else sees them: assistants, classmates and other classes, in pages, tables, exports or calendars", async ({
  app,
  cast,
  db,
}) => {
  const { bakeDayId, revisionId, formulaId } = await giveBakeDay(db, cast, { content: sesameLoaf })
  await states(cast.ben, cast.classId)
  await startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  await makeFeed(db, cast.ben.id)
  const day = `/bake-days/${bakeDayId}`
  const pages = [
    ...[day, `${day}/table`, `${day}/follow-up`, `${day}/class`, `${day}/wall-sheet`, `${day}/sheet`],
    ...[`${day}/export/bakes.csv`, `${day}/export/readings.csv`, `${day}/export/bake-day.json`, `${day}/day.ics`],
    ...[`/revisions/${revisionId}`, `/revisions/${revisionId}/sheet`, `/formulas/${formulaId}/table`],
    ...[`/classes/${cast.classId}`, `/classes/${cast.classId}/allergies`, `/classes/${cast.classId}/people`],
    ...[`/classes/${cast.classId}/students/${cast.ben.id}/table`, "/"],
  ]
  for (const who of [cast.asta, cast.bea, cast.dan])
    for (const url of pages) expect((await who.open(url)).text, url).not.toContain("quinces")
  // what leaves the service says nothing of it either, whoever takes it
  const takenAway = pages.filter((url) => /export|ics|table|sheet$/.test(url))
  for (const who of [cast.ana, cast.ben])
    for (const url of takenAway) expect((await who.open(url)).text, url).not.toContain("quinces")
  expect((await app.db.query.memberships.findMany()).some(({ allergies }) => allergies.words === "quinces")).toBe(true)
})

test("who runs the service sees a class's without being in it, and states none of their own there", async ({
  cast,
}) => {
  await states(cast.ben, cast.classId)
  const { page } = await cast.olga.open(`/classes/${cast.classId}/allergies`)
  expect(wordsOf(page.querySelector(".allergy-met"))).toBe("Bensesame; quinces")
  expect(page.querySelector("form.narrow")).toBeNull()
  expect((await states(cast.olga, cast.classId)).status).toBe(404)
})

test("whoever leaves a class takes their allergies along", async ({ cast, db }) => {
  await states(cast.ben, cast.classId)
  await cast.ben.submit(`/classes/${cast.classId}/leaving`)
  expect(await db.query.memberships.findMany({ where: eq(memberships.userId, cast.ben.id) })).toEqual([])
})

test("a class's list of allergens is first that of its time zone, and then whichever its instructor chooses", async ({
  cast,
  db,
}) => {
  const listOf = async (id: number) => (await db.query.classes.findFirst({ where: eq(classes.id, id) }))!.allergenList
  const opened = { name: "Oak Street", place: "Oak Street", shownName: "Ana" }
  const made = await cast.ana.submit("/classes", { ...opened, zone: "America/New_York" })
  const id = Number(made.location!.split("/").at(-1))
  expect(await listOf(id)).toBe("us")
  const fields = { name: "Oak Street", place: "Oak Street", zone: "America/New_York" }
  await cast.ana.submit(`/classes/${id}`, { ...fields, allergenList: "both" })
  expect(await listOf(id)).toBe("both")

  const refused = await cast.ana.submit(`/classes/${id}`, { ...fields, allergenList: "mars" })
  expect(refused.status).toBe(422)
  expect(refused.page.querySelector("#allergenList-error")!.text).toBe("Choose whose list of allergens counts.")
})

test("the cautions of a bake day go by the list of its class", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await setList(db, cast, "us")
  const us = wordsOf((await cast.ben.open(`/bake-days/${bakeDayId}`)).page.querySelector(".caution"))
  expect(us).toContain("On the US list: wheat")
  expect(us).not.toContain("EU and UK list")
  await setList(db, cast, "eu")
  const eu = wordsOf((await cast.ben.open(`/bake-days/${bakeDayId}`)).page.querySelector(".caution"))
  expect(eu).toContain("On the EU and UK list: cereals containing gluten (wheat)")
})

const setList = (db: Db, { classId }: Cast, allergenList: "us" | "eu") =>
  db.update(classes).set({ allergenList }).where(eq(classes.id, classId))
