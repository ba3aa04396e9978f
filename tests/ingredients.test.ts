import { allergensOf } from "../server/dough/ingredients/allergens.ts"
import { findIngredient } from "../server/dough/ingredients/catalogue.ts"
import { listOwnIngredients, listOwnIngredientsFor } from "../server/ingredients/queries.ts"
import { users } from "../server/schema.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const blankFields = {
  ...{ name: "", kind: "", water: "", fat: "", sugar: "", protein: "", salt: "" },
  ...{ cup: "", tbsp: "", tsp: "", pieceName: "", piece: "", remark: "" },
}
const flour = {
  ...blankFields,
  ...{ name: "Mill Lane flour", kind: "flour", water: "14", protein: "12,5 g", cup: "131", remark: "Harvest of 2026" },
  ...{ "us-6": "on", "eu-0": "on" },
}

test("an instructor adds an ingredient, and every member reads it", async ({ cast }) => {
  const url = `/classes/${cast.classId}/ingredients`
  expect(await cast.ana.submit(url, flour)).toMatchObject({ status: 303, location: url })

  for (const member of [cast.ana, cast.ben]) {
    const words = wordsOf((await member.open(url)).page.querySelector("#ingredients"))
    expect(words).toContain("Mill Lane flour flour In 100 g")
    expect(words).toContain("water 14 g, protein 12.5 g · 1 cup weighs 131 g")
    expect(words).toContain("US list: wheat · EU and UK list: cereals containing gluten")
  }
  expect((await cast.ben.open(url)).page.querySelector("form[action$=removal]")).toBeNull()
  expect(wordsOf((await cast.ana.open(`/classes/${cast.classId}`)).page.querySelector("main"))).toContain(
    "Own ingredients",
  )
})

test("it is then an ingredient like any other, and what was left blank is unknown", async ({ cast, db }) => {
  await cast.ana.submit(`/classes/${cast.classId}/ingredients`, { ...flour, pieceName: "Scoop", piece: "85" })
  const own = await listOwnIngredients(db, cast.classId)
  expect(own).toEqual([
    {
      slug: expect.stringMatching(/^own-\d+$/),
      ...{ name: "Mill Lane flour", role: "flour", countsAs: "flour", per100g: { water: 14, protein: 12.5 } },
      portions: [
        { unit: "cup", g: 131 },
        { unit: "scoop", g: 85 },
      ],
      allergens: { us: ["wheat"], eu: ["cereals containing gluten"] },
      source: "own list of Thursday bakers: Harvest of 2026",
    },
  ])
  expect(findIngredient("mill lane flours, sifted", own)).toEqual(own[0])
  expect(allergensOf(["Mill Lane flour"], own)).toMatchObject({ us: [{ allergen: "wheat", sure: true }], unknown: [] })
})

test("whoever teaches has the lists of all their classes, others have none", async ({ cast, db }) => {
  await cast.ana.submit(`/classes/${cast.classId}/ingredients`, flour)
  await cast.cleo.submit(`/classes/${cast.otherClassId}/ingredients`, { ...flour, name: "Harbour salt", kind: "salt" })
  const namesFor = async (signInName: string) => {
    const viewer = (await db.select().from(users)).find((user) => user.signInName === signInName)!
    return (await listOwnIngredientsFor(db, viewer)).map(({ name }) => name)
  }
  expect(await namesFor("ana")).toEqual(["Mill Lane flour"])
  expect(await namesFor("cleo")).toEqual(["Harbour salt"])
  expect(await namesFor("olga")).toEqual(["Mill Lane flour", "Harbour salt"])
  expect(await namesFor("ben")).toEqual([])
})

test.for([
  [{ name: " " }, "name", "Name the ingredient."],
  [{ name: "???" }, "name", "Give it a name of letters, as it is written in formulas."],
  [{ kind: "" }, "kind", "Choose what it is."],
  [{ water: "some" }, "water", "Give grams, such as 12.5, or leave it blank."],
  [{ fat: "-3" }, "fat", "Give grams, such as 12.5, or leave it blank."],
  [{ salt: "101" }, "salt", "That is more than 100 g."],
  [{ water: "60", sugar: "45" }, "contents", "These add up to 117.5 g, more than there is in 100 g."],
  [{ cup: "0" }, "cup", "Leave it blank if it is not known; it cannot be 0 g."],
  [{ tbsp: "140" }, "tbsp", "That is more than 45 g."],
  [{ piece: "20" }, "pieceName", "Say what one piece of it is called."],
  [{ pieceName: "slice" }, "piece", "Say what one slice weighs."],
  [{ pieceName: "cup", piece: "20" }, "pieceName", "Spoons and cups have fields of their own."],
] as const)(
  "%j is refused beside the field, and the rest stays typed",
  async ([wrong, field, message], { cast, db }) => {
    const { status, page } = await cast.ana.submit(`/classes/${cast.classId}/ingredients`, { ...flour, ...wrong })
    expect(status).toBe(422)
    expect(wordsOf(page.querySelector(`#${field}-error`))).toBe(message)
    expect(page.querySelector("#protein")?.getAttribute("value")).toBe("12,5 g")
    expect(page.querySelector("[name=us-6]")?.hasAttribute("checked")).toBe(true)
    expect(await listOwnIngredients(db, cast.classId)).toEqual([])
  },
)

test("what is known of it can be changed, one thing at a time", async ({ cast, db }) => {
  const url = `/classes/${cast.classId}/ingredients`
  await cast.ana.submit(url, { ...flour, pieceName: "scoop", piece: "85" })
  const { slug } = (await listOwnIngredients(db, cast.classId))[0]!
  const edit = slug.replace("own-", "/ingredients/")

  const { page } = await cast.ana.open(edit)
  const shown = Object.fromEntries(
    page
      .querySelectorAll("form.written input:not([type=checkbox])")
      .map((input) => [input.getAttribute("name"), input.getAttribute("value")]),
  )
  expect(shown).toMatchObject({
    name: "Mill Lane flour",
    water: "14",
    fat: "",
    cup: "131",
    pieceName: "scoop",
    piece: "85",
  })
  expect(page.querySelectorAll("[type=checkbox][checked]").map((box) => box.getAttribute("name"))).toEqual([
    "us-6",
    "eu-0",
  ])

  expect(await cast.ana.submit(edit, { ...flour, water: "13.8" })).toMatchObject({ status: 303, location: url })
  expect(await listOwnIngredients(db, cast.classId)).toMatchObject([{ slug, per100g: { water: 13.8, protein: 12.5 } }])
})

test("a class has one ingredient of a name, however it is written", async ({ cast, db }) => {
  const url = `/classes/${cast.classId}/ingredients`
  await cast.ana.submit(url, flour)
  await cast.ana.submit(url, { ...flour, name: "Dark malt" })
  const again = await cast.ana.submit(url, { ...flour, name: "MILL LANE FLOUR" })
  expect(again.status).toBe(422)
  expect(wordsOf(again.page.querySelector("#name-error"))).toBe("The list has an ingredient of that name already.")

  const malt = (await listOwnIngredients(db, cast.classId)).find(({ name }) => name === "Dark malt")!
  const renamed = await cast.ana.submit(malt.slug.replace("own-", "/ingredients/"), flour)
  expect(renamed.status).toBe(422)
  await cast.cleo.submit(`/classes/${cast.otherClassId}/ingredients`, flour)
  expect(await listOwnIngredients(db, cast.otherClassId)).toHaveLength(1)
})

test("one that is taken off the list is gone", async ({ cast, db }) => {
  const url = `/classes/${cast.classId}/ingredients`
  await cast.ana.submit(url, flour)
  const removal = (await cast.ana.open(url)).page.querySelector("form[action$=removal]")!.getAttribute("action")!
  expect(await cast.ana.submit(removal)).toMatchObject({ status: 303, location: url })
  expect(await listOwnIngredients(db, cast.classId)).toEqual([])
})

test("one that stands in for a usual one says so", async ({ cast }) => {
  const url = `/classes/${cast.classId}/ingredients`
  await cast.ana.submit(url, { ...flour, name: "Wholemeal" })
  expect(wordsOf((await cast.ana.open(url)).page.querySelector("#ingredients"))).toContain(
    "taken instead of the usual whole wheat flour",
  )
})

test("cleo, who teaches elsewhere, finds nothing here", async ({ cast, db }) => {
  await cast.ana.submit(`/classes/${cast.classId}/ingredients`, flour)
  const { slug } = (await listOwnIngredients(db, cast.classId))[0]!
  expect((await cast.cleo.open(`/classes/${cast.classId}/ingredients`)).status).toBe(404)
  expect((await cast.cleo.open(slug.replace("own-", "/ingredients/"))).status).toBe(404)
  expect((await cast.ben.open(slug.replace("own-", "/ingredients/"))).status).toBe(403)
})
