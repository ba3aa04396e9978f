import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { cues } from "../server/dough/verdict/cues.ts"
import { bakes, corrections } from "../server/schema.ts"
import { error, read, started } from "./bench.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const fieldsOf = (vessel: string, ...cue: string[]) =>
  new URLSearchParams([["entryId", randomUUID()], ["vessel", vessel], ...cue.map((key) => ["cue", key])])
const see = (who: Visitor, url: string, vessel: string, ...cue: string[]) =>
  who.submit(`${url}/cues`, fieldsOf(vessel, ...cue))

const kept = async (db: Db, id: number) =>
  db.query.bakes.findFirst({ where: eq(bakes.id, id), columns: { vessel: true, cues: true, version: true } })
const seen = ({ page }: Page) => wordsOf(page.querySelector("#saw > .seen"))
const ticked = ({ page }: Page) =>
  page.querySelectorAll("#saw [name=cue][checked]").map((box) => box.getAttribute("value"))
const openGroups = ({ page }: Page) => page.querySelectorAll("#saw form details[open] summary").map(wordsOf)

test("what was seen is kept, and stands on the bench in plain words", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const before = await kept(db, id)

  const { status, location } = await see(cast.ben, url, "hearth", "deflated", "cuts-stayed-shut")

  expect([status, location]).toEqual([303, `${url}#saw`])
  const bench = await cast.ben.open(url)
  expect(seen(bench)).toBe(
    "Baked on a stone or tray In proof It deflated when it was moved or scored. In the oven The cuts hardly opened.",
  )
  expect(ticked(bench)).toEqual(["deflated", "cuts-stayed-shut"])
  expect(await kept(db, id)).toEqual({
    ...{ vessel: "hearth", cues: ["deflated", "cuts-stayed-shut"] },
    version: before!.version + 1, // whoever follows the bake hears of it
  })
})

test("every cue can be ticked, and each once", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const { page } = await cast.ben.open(url)
  const offered = page.querySelectorAll("#saw [name=cue]").map((box) => box.getAttribute("value"))
  expect(offered.toSorted()).toEqual(Object.keys(cues).toSorted())
})

test("ticking again takes the place of what was said, which stays with its teller", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await see(cast.ben, url, "hearth", "deflated")
  await see(cast.asta, url, "pot", "burst")
  const bench = await cast.ben.open(url)
  expect(seen(bench)).toBe("Baked in a pot In the oven It burst, or cracked open where it was not cut.")
  const before = wordsOf(bench.page.querySelector("#saw .was"))
  expect(before).toContain("changed by Asta")
  expect(before).toContain("on a stone or tray")
  expect(before).toContain("It deflated when it was moved or scored.")
  await see(cast.ben, url, "pot", "burst")
  expect(await db.$count(corrections, eq(corrections.bakeId, id))).toBe(1)
})

test("all ticks can be taken back", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await see(cast.ben, url, "tin", "dense")
  await see(cast.ben, url, "")
  expect(await kept(db, id)).toMatchObject({ vessel: "", cues: [] })
  expect(seen(await cast.ben.open(url))).toBe("")
})

const refusals = [
  ["a cue", "tin", ["dense", "constructor"], "cue", /^Something was ticked that is not among what can be seen here/],
  ["a vessel", "kettle", ["dense"], "vessel", /^Choose one of these, or leave it open/],
] as const
for (const [what, vessel, keys, field, message] of refusals)
  test(`${what} that nobody offered is refused, and what was ticked stays ticked`, async ({ db, cast }) => {
    const { id, url } = await started(db, cast)
    const answer = await see(cast.ben, url, vessel, ...keys)
    expect(answer.status).toBe(422)
    expect(error(answer, field)).toMatch(message)
    expect(ticked(answer)).toEqual(["dense"])
    expect(answer.page.querySelector("#saw > details")?.hasAttribute("open")).toBe(true)
    expect(await kept(db, id)).toMatchObject({ vessel: "", cues: [] })
  })

test("the groups that fit the stage are open, the others are there", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  expect(openGroups(await cast.ben.open(url))).toEqual(["Levain, yeast", "The dough, to the end of bulk"])
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "start", at: "" })
  expect(openGroups(await cast.ben.open(url))).toEqual(["The dough, to the end of bulk"])
  await cast.ben.submit(`${url}/marks`, { stageKey: "bake", action: "start", at: "" })
  expect(openGroups(await cast.ben.open(url))).toEqual(["In the oven"])
  await cast.ben.submit(`${url}/marks`, { stageKey: "cool", action: "start", at: "" })
  await cast.ben.submit(`${url}/marks`, { stageKey: "cool", action: "end", at: "" })
  expect(openGroups(await cast.ben.open(url))).toEqual(["Shape and crust", "Crumb"])
})

test("a form that waited without network is kept once, and does not undo what came after it", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const waiting = fieldsOf("hearth", "deflated")
  const send = () =>
    cast.ben.send("POST", `${url}/cues`, waiting.toString(), {
      "content-type": "application/x-www-form-urlencoded",
      "oven-viewer": String(cast.ben.id),
      "oven-pressed-at": new Date(Date.now() - 3_600_000).toISOString(),
      "oven-sent-at": new Date().toISOString(),
    })
  const answers = await Promise.all([send(), send()])
  expect(answers.map(({ status }) => status)).toEqual([303, 303])
  await see(cast.ben, url, "pot", "burst")
  expect((await send()).status).toBe(303)
  expect(await kept(db, id)).toMatchObject({ vessel: "pot", cues: ["burst"] })
  expect(await db.$count(corrections, eq(corrections.bakeId, id))).toBe(1)
})

test("another answer under a number that was kept is refused", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const first = fieldsOf("hearth", "deflated")
  await cast.ben.submit(`${url}/cues`, first)
  first.append("cue", "burst")
  const answer = await cast.ben.submit(`${url}/cues`, first)
  expect(answer.status).toBe(422)
  expect(error(answer, "cue")).toMatch(/^This form was sent before/)
  expect(await kept(db, id)).toMatchObject({ cues: ["deflated"] })
})

test("what the baker wrote is asked back, and ticked by nobody but them", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "note", value: "The levain hardly rose.", takenAt: "" })
  await cast.ben.submit(`${url}/result`, { ownWords: "The crumb was dense and it did not burst." })
  const bench = await cast.ben.open(url)
  expect(bench.page.querySelectorAll("#saw .from-words li").map(wordsOf)).toEqual([
    "The levain or sponge hardly rose or bubbled? “The levain hardly rose”",
    "The crumb was dense? “The crumb was dense and it did not burst”",
  ])
  expect(ticked(bench)).toEqual([])
  expect(await kept(db, id)).toMatchObject({ cues: [] })

  await see(cast.ben, url, "", "dense")
  const after = await cast.ben.open(url)
  expect(after.page.querySelectorAll("#saw .from-words li")).toHaveLength(1)
  expect(ticked(after)).toEqual(["dense"])
})

test("classmates see what was seen, and cannot tick", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await see(cast.ben, url, "tin", "dense")
  const bench = await cast.bea.open(url)
  expect(seen(bench)).toBe("Baked in a tin Crumb The crumb was dense.")
  expect(bench.page.querySelector("#saw form")).toBeNull()
  // what was corrected is between the baker and the staff
  await see(cast.ben, url, "tin")
  expect((await cast.bea.open(url)).page.querySelector("#saw .was")).toBeNull()
})
