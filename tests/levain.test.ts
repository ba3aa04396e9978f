import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { addFormula } from "../server/formulas/queries.ts"
import { kitchens, users } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const wish = {
  ...{ needed: "220", keep: "", sticks: "0", starter: "", starterHydration: "100", rise: "100", at: "24" },
  ...{ find: "ripe", ratio: "1 : 5 : 5", fed: "2026-11-14T20:00", ripe: "2026-11-15T07:00", count: "" },
}
const asked = (changes: Record<string, string> = {}) => `levain?${new URLSearchParams({ ...wish, ...changes })}`
const bigOf = ({ page }: Page) => wordsOf(page.querySelector(".big"))
const errorOf = ({ page }: Page, field: string) => wordsOf(page.querySelector(`#${field}-error`))
const typedIn = ({ page }: Page, field: string) => page.querySelector(`#${field}`)!.getAttribute("value")
const hintOf = ({ page }: Page, field: string) => wordsOf(page.querySelector(`#${field}-hint`))
/** What each build weighs, "20 g ripe starter", its whole last. */
const buildsOf = ({ page }: Page) =>
  page.querySelectorAll(".levain-build").map((build) => build.querySelectorAll("tbody tr, tfoot tr").map(wordsOf))

const line = (quantity: string, ingredient: string) => ({ ...tinLoaf.parts[0]!.lines[0]!, quantity, ingredient })

/** A formula of ana's with these lines before its dough. */
async function formulaWith(db: Db, cast: Cast, lines: FormulaContent["parts"][number]["lines"], name = "Levain") {
  const [levain, dough] = tinLoaf.parts
  const parts = lines.length ? [{ ...levain!, name, lines }, dough!] : [dough!]
  return `/formulas/${await addFormula(db, cast.ana.id, { title: "Loaf", content: { ...tinLoaf, parts } })}`
}

test("a student finds what to weigh and when the class's levain is ripe", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked()}`)
  expect(page.status).toBe(200)
  // 1 : 5 : 5 doubles in 8.0 h at 24 °C
  expect(bigOf(page)).toMatch(/Ripe Sun 15 Nov 04:00 likely 02:40–05:30, at 24 °C/)
  expect(buildsOf(page)).toEqual([
    ["20 g ripe starter", "100 g bread flour", "100 g water", "220 g in all: 220 g into the dough, nothing stays"],
  ])
})

test("it begins with the formula's own levain and with guesses that say so", async ({ db, cast }) => {
  const { formulaId } = await giveBakeDay(db, cast)
  const page = await cast.ana.open(`/formulas/${formulaId}/levain`)
  expect([typedIn(page, "needed"), typedIn(page, "ratio"), typedIn(page, "at")]).toEqual(["220", "1 : 5 : 5", "21"])
  expect(hintOf(page, "at")).toContain("Our guess")
  expect(hintOf(page, "rise")).toContain("Doubled, our own choice")
  expect(bigOf(page)).toMatch(/^Ripe /)
})

test("flour is split as the instructor gives it, and what stays in the jar is made as well", async ({ db, cast }) => {
  const lines = [line("82 g", "bread flour"), line("18 g", "wholemeal flour"), line("100 g", "water")]
  const url = await formulaWith(db, cast, [...lines, line("20 g", "ripe starter")])
  const page = await cast.ana.open(`${url}/${asked({ keep: "20", sticks: "9 g", starter: "50" })}`)
  const [things] = buildsOf(page)
  expect(things![4]).toBe("249 g in all: 220 g into the dough, 29 g stay in the jar, 20 g of it for the next time")
  expect(things![1]).toMatch(/^93 g bread flour/)
  expect(things![2]).toMatch(/^20 g wholemeal flour/)
  expect(page.text).toContain("27 g of your starter are left over")
})

test("a day ahead is answered in two builds, of which the first makes what the second is fed with", async ({
  db,
  cast,
}) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const late = { find: "feeding", ripe: "2026-11-15T18:00", at: "22", starter: "30" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(late)}`)
  expect(bigOf(page)).toMatch(/^In 2 builds/)
  const [first, second] = buildsOf(page)
  const goesOn = /(\d+) g into the next/.exec(first!.at(-1)!)![1]
  expect(second![0]).toMatch(new RegExp(`^${goesOn} g all that went before`))
})

test("too little time is answered with what would help, and taking it does", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const soon = { find: "feeding", ripe: "2026-11-15T03:00", at: "20", starter: "20" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(soon)}`)
  expect(bigOf(page)).toMatch(/^6 h late: ripe/)
  const warmer = page.page.querySelectorAll(".levain-instead a").find((link) => link.text.startsWith("Let it stand"))!
  const taken = await cast.ben.open(warmer.getAttribute("href")!.replaceAll("&amp;", "&"))
  expect(bigOf(taken)).toMatch(/^Feed it 1/)
})

test("how to feed it, how warm it must stand and when to feed it are answered too", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const ratio = await cast.ben.open(`/revisions/${revisionId}/${asked({ find: "feeding", ripe: "2026-11-15T04:00" })}`)
  expect(bigOf(ratio)).toMatch(/Feed it 1 : (4\.9|5|5\.1) : /)
  expect(ratio.text).toMatch(/a lively one 1 : [\d.]+ : [\d.]+ and a tired one/)
  const warmth = await cast.ben.open(`/revisions/${revisionId}/${asked({ find: "warmth" })}`)
  expect(bigOf(warmth)).toMatch(/^Let it stand at 21\.\d °C/)
  const fed = await cast.ben.open(`/revisions/${revisionId}/${asked({ find: "fed" })}`)
  expect(bigOf(fed)).toMatch(/^Feed it Sat 14 Nov 23:00/)
})

test("the table says hours with their range, and marks the own places and the formula's feeding", async ({
  db,
  cast,
}) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const told = (value: number) => ({ value, known: "measured" as const, typed: `${value} °C` })
  await db.insert(kitchens).values({ userId: cast.ben.id, content: { roomC: told(19.5), prooferC: told(27) } })
  const { page } = await cast.ben.open(`/revisions/${revisionId}/levain`)
  const heads = page.querySelectorAll(".levain-table thead th").map(wordsOf)
  expect(heads).toContain("19.5 °C as asked, your room")
  expect(heads).toContain("27 °C your warm box")
  const row = page.querySelectorAll(".levain-table tbody tr").find((one) => one.text.includes("1 : 1 : 1"))!
  expect(wordsOf(row.querySelectorAll("td")[heads.indexOf("24 °C") - 1]!)).toBe("4.8 3.7–6.2")
  expect(page.querySelectorAll(".levain-table tbody th").map(wordsOf)).toContain("1 : 5 : 5 the formula’s, this one")
})

test("a link from the own day brings kitchen, mass and the time of the mixing", async ({ db, cast }) => {
  const { revisionId, bakeDayId } = await giveBakeDay(db, cast)
  const told = { value: 19, known: "measured" as const, typed: "19 °C" }
  const content = { roomC: told, jarKeepsG: { ...told, value: 15 }, scaleStepG: { ...told, value: 5 } }
  await db.insert(kitchens).values({ userId: cast.ben.id, content })
  const page = await cast.ben.open(`/revisions/${revisionId}/levain?day=${bakeDayId}`)
  expect([typedIn(page, "at"), typedIn(page, "keep")]).toEqual(["19", "15"])
  expect(hintOf(page, "at")).toContain("room of your own day")
  expect(hintOf(page, "ripe")).toContain("mixes the dough")
  expect(typedIn(page, "ripe")).toMatch(/T\d\d:\d\d$/)
  expect(page.page.querySelector("[name=find][checked]")!.getAttribute("value")).toBe("feeding")
  for (const thing of buildsOf(page).flat()) expect(Number(/^(\d+) g/.exec(thing)![1]) % 5).toBe(0)
})

test("a formula without a levain is told so kindly", async ({ db, cast }) => {
  const { status, text } = await cast.ana.open(`${await formulaWith(db, cast, [])}/levain`)
  expect(status).toBe(200)
  expect(text).toContain("nothing to feed ahead")
})

test("a poolish is scaled, and its time is not guessed at", async ({ db, cast }) => {
  const lines = [line("468 g", "bread flour"), line("468 g", "water"), line("0.3 g", "instant yeast")]
  const url = await formulaWith(db, cast, lines, "Poolish")
  const page = await cast.ana.open(`${url}/levain?needed=1872.6&sticks=0&at=21`)
  expect(bigOf(page)).toMatch(/Mix 1873 g .*we cannot say/)
  expect(buildsOf(page)[0]!.slice(0, 2)).toEqual(["936 g bread flour", "936 g water"])
})

test("what cannot be read stays as typed, with why beside it", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const wrong = {
    ...{ needed: "<lots>", keep: "-3", sticks: "120", starter: "a cup", starterHydration: "5", rise: "2 %" },
    ...{ find: "fed", ratio: "1 : 0 : 0", at: "75", ripe: "soon" },
  }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(wrong)}`)
  expect(page.status).toBe(200)
  expect(bigOf(page)).toContain("Not yet")
  for (const field of ["needed", "keep", "sticks", "starter", "starterHydration", "rise", "ratio", "at", "ripe"])
    expect(errorOf(page, field)).not.toBe("")
  expect(errorOf(page, "at")).toContain("Is that 75 °F?")
  expect(typedIn(page, "needed")).toBe("<lots>")
  expect(page.text).not.toContain("<lots>")
  const before = await cast.ben.open(`/revisions/${revisionId}/${asked({ find: "feeding", ripe: "2026-11-14T19:00" })}`)
  expect(errorOf(before, "ripe")).toBe("That is before it is fed.")
})

test("whoever reads in °F and ounces is asked and answered in them", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  await db.update(users).set({ temperatureUnit: "F", massUnit: "oz" }).where(eq(users.id, cast.ben.id))
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ at: "75.2", needed: "8" })}`)
  expect(bigOf(page)).toContain("at 75.2 °F")
  expect(buildsOf(page)[0]!.at(-1)).toMatch(/^8 oz in all/)
  expect(page.page.querySelectorAll(".levain-table thead th").map(wordsOf)).toContain("68 °F")
})

test("times are read by the person's own clock, and a clock change in between is said", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const spring = { find: "feeding", fed: "2026-03-28T21:00", ripe: "2026-03-29T07:00" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(spring)}`)
  expect(page.text).toContain("The clocks change in between: 9 h pass, not 10 h.")
})

test("odd addresses break nothing", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  for (const query of [
    "find=dancing",
    "day=999999",
    "day=x&part=none",
    "needed=1&needed=2",
    "at[]=1",
    "fed=2026-13-45T99:99",
    "ratio=%F0%9F%8D%9E",
    new URLSearchParams({ ...wish, find: "warmth", ratio: "1:100:100", fed: "2026-11-15T06:59" }),
    new URLSearchParams({ ...wish, find: "feeding", starter: "0.1", needed: "9 kg", count: "3" }),
    new URLSearchParams({ ...wish, at: "-5" }),
    new URLSearchParams({ ...wish, starterHydration: "300", ratio: "3:1:0" }),
  ])
    expect((await cast.ben.open(`/revisions/${revisionId}/levain?${query}`)).status).toBe(200)
})

test("cleo finds nothing, and nobody the day of another class", async ({ db, cast }) => {
  const { revisionId, formulaId } = await giveBakeDay(db, cast)
  expect((await cast.cleo.open(`/revisions/${revisionId}/levain`)).status).toBe(404)
  expect((await cast.cleo.open(`/formulas/${formulaId}/levain`)).status).toBe(404)
  const other = await giveBakeDay(db, { classId: cast.otherClassId, ana: cast.cleo })
  const page = await cast.ben.open(`/revisions/${revisionId}/levain?day=${other.bakeDayId}`)
  expect(page.page.querySelector("[name=day]")).toBeNull()
})
