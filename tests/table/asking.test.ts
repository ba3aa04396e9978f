import { eq } from "drizzle-orm"
import { addBakeDay } from "../../server/bake-days/queries.ts"
import type { Db } from "../../server/db.ts"
import { bakes, changes, memberships, readings, revisions } from "../../server/schema.ts"
import type { Cast } from "../cast.ts"
import { giveBakeDay, tinLoaf } from "../class-day.ts"
import { expect, test } from "../test.ts"
import { type Page, wordsOf } from "../visitor.ts"
import { addBake, addStudents } from "./class.ts"
import { log, onPlan } from "./log.ts"

const names = ({ page }: Page) => page.querySelectorAll(".bakes tbody th.name > a:not(.again)").map(wordsOf)
const heads = ({ page }: Page) => page.querySelectorAll(".bakes thead tr:first-child th").map(wordsOf)
const options = ({ page }: Page, name: string) => page.querySelectorAll(`select[name="${name}"] option`).map(wordsOf)

const at = (doughC: number, roomC?: number) =>
  log(onPlan, [
    ["dough", "09:00", doughC],
    ["dough", "16:20", doughC],
    ...(roomC === undefined ? [] : [["room", "10:00", roomC] as ["room", string, number]]),
  ])

/** Ben and Bea in a warm kitchen, one in a tin and one in a pot; Asta in a cold one, who said nothing of her vessel. */
async function threeBakes(db: Db, cast: Cast) {
  const day = await giveBakeDay(db, cast)
  const bens = await addBake(db, day, cast.ben.id, at(24, 23), { vessel: "tin" })
  const beas = await addBake(db, day, cast.bea.id, at(24, 22.5), { vessel: "pot" })
  const astas = await addBake(db, day, cast.asta.id, at(19, 17))
  return { ...day, url: `/bake-days/${day.bakeDayId}/table`, bens, beas, astas }
}

test("a column shows only where bakes differ in it, and what is the same is said once", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)

  const table = await cast.ben.open(url)

  expect(heads(table)).toEqual([
    ...["Bake ▲", "Kitchen", "Dough", "Baked", "Fermented", "Rise", "At the oven", "What differed most", "Photos"],
  ])
  const same = wordsOf(table.page.querySelector(".same"))
  expect(same).toMatch(/^The same for all: revision 1; made as written; bread flour; levain with 11 % of the flour; /)
  expect(same).toContain("bulk 5 h; proof 2 h; waited 0 min for the oven")
})

test("what only some told is no difference, and what nobody told is named as missing", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await addBake(db, day, cast.ben.id, at(24), { vessel: "tin" })
  await addBake(db, day, cast.bea.id, at(24))

  const table = await cast.ben.open(`/bake-days/${day.bakeDayId}/table`)

  expect(heads(table)).not.toContain("Baked")
  expect(wordsOf(table.page.querySelector(".same"))).toContain("baked in a tin, as far as is known")
  expect(wordsOf(table.page.querySelector(".same"))).toContain("Not known of any: the kitchen’s temperature")
})

test("bakes are picked by the kitchen's temperature and by vessel, in bands with their counts", async ({
  db,
  cast,
}) => {
  const { url } = await threeBakes(db, cast)
  const all = await cast.ben.open(url)
  expect(options(all, "kitchen")).toEqual(["any", "16 to 18 °C (1)", "22 to 24 °C (2)"])
  expect(options(all, "vessel")).toEqual(["any", "in a pot (1)", "in a tin (1)", "not known (1)"])
  expect(options(all, "flour")).toEqual([])

  const warm = await cast.ben.open(`${url}?kitchen=22`)
  expect(names(warm)).toEqual(["Bea", "Ben"])
  expect(wordsOf(warm.page.querySelector(".as-asked"))).toContain("Only kitchen: 22 to 24 °C, which is 2 of 3.")
  expect(heads(warm)).not.toContain("Dough")
  expect(names(await cast.ben.open(`${url}?kitchen=22&vessel=in+a+tin`))).toEqual(["Ben"])
  expect(names(await cast.ben.open(`${url}?vessel=unknown`))).toEqual(["Asta"])
})

test("bakes are picked by flour and by leaven, as each baker really made it", async ({ db, cast }) => {
  const { url, bens } = await threeBakes(db, cast)
  const change = { bakeId: bens, kind: "swapped" as const, partKey: "dough", ingredient: "bread flour" }
  await db.insert(changes).values({ ...change, instead: "whole rye flour", quantity: "890 g", massG: 890 })
  const halved = { bakeId: bens, kind: "left-out" as const, partKey: "levain", ingredient: "ripe starter" }
  await db.insert(changes).values(halved)

  const table = await cast.ana.open(url)

  const [, first, second] = options(table, "flour")
  expect([first, second].some((option) => /rye/.test(option!))).toBe(true)
  const rye = table.page.querySelectorAll('select[name="flour"] option').find((one) => /rye/.test(one.text))!
  const picked = await cast.ana.open(`${url}?${new URLSearchParams({ flour: rye.getAttribute("value")! })}`)
  expect(names(picked)).toEqual(["Ben"])
})

test("a wish for what is not there is as if it were not made", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)

  for (const odd of ["kitchen=99", "vessel=boat", "by=shoe", "by=bulk", "lined=from-nowhere", "for=nobody"]) {
    const table = await cast.ben.open(`${url}?${odd}`)
    expect(table.status, odd).toBe(200)
    expect(names(table)).toEqual(["Asta", "Bea", "Ben"])
    expect(table.page.querySelector("#table")!.getAttribute("hx-get")).toBe(`${url}?sort=name&way=up&lined=table`)
  }
  expect((await cast.ben.open(`${url}?kitchen=22&kitchen=16&by=a&by=b&${"x=1&".repeat(200)}`)).status).toBe(200)
})

test("groups have their counts, and medians of three or more", async ({ db, cast }) => {
  const { url, bakeDayId, revisionId } = await threeBakes(db, cast)
  const [more] = await addStudents(db, cast, 1)
  await addBake(db, { bakeDayId, revisionId }, more!, at(25, 23.5))

  const groups = (await cast.ben.open(`${url}?by=kitchen`)).page.querySelectorAll("tbody.group").map(wordsOf)

  expect(groups).toEqual([
    "16 to 18 °C 1 bake too few figures for a median",
    "22 to 24 °C 3 bakes medians: 7.3 ref h, dough 24 °C",
  ])
})

test("rows sort by any column, either way, and inside their groups", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)

  expect(names(await cast.ben.open(`${url}?sort=kitchen`))).toEqual(["Asta", "Bea", "Ben"])
  expect(names(await cast.ben.open(`${url}?sort=kitchen&way=down`))).toEqual(["Ben", "Bea", "Asta"])
  expect(names(await cast.ben.open(`${url}?sort=vessel&way=down`))).toEqual(["Ben", "Bea", "Asta"])
  expect(names(await cast.ben.open(`${url}?sort=name&way=down&by=kitchen`))).toEqual(["Asta", "Ben", "Bea"])
})

test("bakes line up from any stage, and one without that stage says that it stands by its plan", async ({
  db,
  cast,
}) => {
  const { url, bakeDayId, revisionId } = await threeBakes(db, cast)
  const { proof, ...short } = onPlan
  const unmarked = await addBake(db, { bakeDayId, revisionId }, cast.ben.id, log(short, [["dough", "09:00", 24]]))

  const table = await cast.ben.open(`${url}?lined=from-proof`)

  expect(options(table, "lined")).toContain("the start of Proof")
  expect(wordsOf(table.page.querySelector(".as-asked"))).toContain("Lined up by the start of Proof.")
  expect(wordsOf(table.page.querySelector(`#bake-${unmarked} .strip small`))).toContain("stands where its plan has it")
  expect(table.page.querySelectorAll(".strip small")).toHaveLength(1)
})

test("in reference hours temperature is out of the picture, and the page says so", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)

  const table = await cast.ben.open(`${url}?lined=reference`)

  expect(wordsOf(table.page.querySelector(".as-asked"))).toContain("reference hours: temperature is taken out")
  expect(wordsOf(table.page.querySelector(".ribbon-key"))).toContain("what is left is something else")
  expect(table.page.querySelectorAll("#hours text").map(wordsOf)).toContain("0 ref h")
})

test("the table for a wall has no controls and keeps what was asked", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)

  const table = await cast.ben.open(`${url}?kitchen=22&for=projector`)

  expect(table.page.querySelector(".comparison.projected")).not.toBeNull()
  expect(names(table)).toEqual(["Bea", "Ben"])
  expect(table.page.querySelector("a.large")!.getAttribute("href")).not.toContain("projector")
})

test("a formula's table has the bakes of all its days, by revision", async ({ db, cast }) => {
  const { bakeDayId, formulaId } = await threeBakes(db, cast)
  const content = { ...tinLoaf, about: "Again" }
  const again = { formulaId, number: 2, title: "Tin loaf", content, whatChanged: "" }
  const [second] = await db.insert(revisions).values(again).returning()
  await addBake(db, { bakeDayId, revisionId: second!.id }, cast.ben.id, at(22))
  const other = await giveBakeDay(db, cast)
  await addBake(db, other, cast.bea.id, at(30), { kitchen: "another formula" })

  const table = await cast.ben.open(`/formulas/${formulaId}/table`)

  expect(names(table)).toEqual(["Asta", "Bea", "Ben", "Ben"])
  expect(heads(table)).toContain("Revision")
  expect(options(table, "revision")).toEqual(["any", "1 (3)", "2 (1)"])
  expect(table.text).not.toContain("another formula")
})

test("on a formula's table everybody sees what they may see in each class", async ({ db, cast }) => {
  const { formulaId, revisionId, bens } = await threeBakes(db, cast)
  await db.update(bakes).set({ shared: false }).where(eq(bakes.id, bens))
  const elsewhere = await addBakeDay(db, {
    ...{ classId: cast.otherClassId, revisionId, title: "Elsewhere", onTableTime: "18:00", lookFor: "" },
    ...{ opensOn: "2026-11-01", closesOn: "2026-11-30" },
  })
  await addBake(db, { bakeDayId: elsewhere, revisionId }, cast.dan.id, at(20))

  const url = `/formulas/${formulaId}/table`
  expect(names(await cast.bea.open(url))).toEqual(["Asta", "Bea"])
  expect(names(await cast.ben.open(url))).toEqual(["Asta", "Bea", "Ben"])
  expect(names(await cast.ana.open(url))).toEqual(["Asta", "Bea", "Ben"])
  expect(names(await cast.dan.open(url))).toEqual(["Dan"])
  expect(names(await cast.olga.open(url))).toEqual(["Asta", "Bea", "Ben", "Dan"])
})

test("a student's table is over time; classmates see what is shared, a stranger to the class nothing", async ({
  db,
  cast,
}) => {
  await threeBakes(db, cast)
  const later = await giveBakeDay(db, cast, { title: "Tin loaf again" })
  await addBake(db, later, cast.ben.id, at(26), { shared: false })
  const url = `/classes/${cast.classId}/students/${cast.ben.id}/table`

  const own = await cast.ben.open(url)
  expect(wordsOf(own.page.querySelector("h1"))).toBe("Ben, side by side")
  expect(names(own)).toEqual(["Ben", "Ben"])
  expect(heads(own)).toContain("Bake day")
  expect(names(await cast.ana.open(url))).toHaveLength(2)
  expect(names(await cast.bea.open(url))).toHaveLength(1)
  expect((await cast.cleo.open(url)).status).toBe(404)
  expect((await cast.ana.open(`/classes/${cast.classId}/students/${cast.dan.id}/table`)).status).toBe(404)
  expect((await cast.ana.open(`/classes/${cast.classId}/students/x/table`)).status).toBe(404)
})

test("the bakes of somebody who left the class stay on its tables, without a name", async ({ db, cast }) => {
  const { url } = await threeBakes(db, cast)
  await db.delete(memberships).where(eq(memberships.userId, cast.ben.id))

  expect(names(await cast.ana.open(url))).toContain("Somebody who has left the class")
  expect((await cast.ana.open(`/classes/${cast.classId}/students/${cast.ben.id}/table`)).status).toBe(200)
  expect((await cast.ben.open(url)).status).toBe(404)
})

test("a reading that was taken back is on no table", async ({ db, cast }) => {
  const { url, astas } = await threeBakes(db, cast)
  await db.update(readings).set({ removedAt: new Date() }).where(eq(readings.bakeId, astas))

  const table = await cast.ana.open(url)

  expect(wordsOf(table.page.querySelector(`#bake-${astas} .dough`))).toBe("")
  expect(wordsOf(table.page.querySelector(`#bake-${astas} .fermented`))).toContain("unknown")
})
