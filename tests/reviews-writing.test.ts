import { error, typedIn } from "./bench.ts"
import { filledIn, reviewedDay } from "./reviews/class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const value = ({ page }: Page, name: string) => page.querySelector(`[name="${name}"]`)?.getAttribute("value")
const text = ({ page }: Page, name: string) => page.querySelector(`textarea[name="${name}"]`)?.text
const chosen = ({ page }: Page) =>
  page
    .querySelectorAll(".desk-choices li")
    .filter((one) => one.querySelector("input[name$=show][checked]"))
    .map((one) => wordsOf(one.querySelector("b")))

test("a draft is kept as it was written, and opens again as it was", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)

  const { status, location } = await cast.ana.submit(day.url, filledIn(day, cast))

  expect([status, location]).toEqual([303, `${day.url}/edit`])
  const desk = await cast.olga.open(`${day.url}/edit`)
  expect(typedIn(desk, "title")).toBe("Warm kitchens, cold kitchens")
  expect(text(desk, "words")).toBe("The **clock** lies.\n\nThe jar does not.")
  expect(text(desk, "pairs.0.why")).toBe("One formula, six degrees apart.")
  expect(text(desk, `students.${cast.bea.id}`)).toBe("Bea, move the bowl.")
  expect(chosen(desk)).toEqual(["Ben", "Bea"])
  expect(wordsOf(desk.page.querySelector("#saved"))).toMatch(/^Saved \d\d:\d\d\.$/)
})

test("half a pair and no title are kept in a draft, and stand in the way of publishing, with all words kept", async ({
  db,
  cast,
}) => {
  const day = await reviewedDay(db, cast)
  const half = filledIn(day, cast, {
    title: "",
    "pairs.0.right": "",
    "pairs.1.left": String(day.bens),
    "pairs.1.right": String(day.bens),
    "pairs.1.why": "",
  })
  expect((await cast.ana.submit(day.url, half)).status).toBe(303)

  const refused = await cast.ana.submit(`${day.url}/editions`, { ...half, words: "A **new** sentence." })

  expect(refused.status).toBe(422)
  expect(error(refused, "title")).toBe("Give the review a title.")
  expect(refused.text).toContain("Choose the bake on this side.")
  expect(refused.text).toContain("Choose another bake than on the other side.")
  expect(refused.text).toContain("Say in a sentence why these two.")
  expect(text(refused, "words")).toBe("A **new** sentence.")
  expect(text(await cast.ana.open(`${day.url}/edit`), "words")).toBe("A **new** sentence.")
  expect((await cast.ben.open(day.url)).text).toContain("not out yet")
})

test("a review with nothing in it is not published", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  const refused = await cast.ana.submit(`${day.url}/editions`, { formId: "one", title: "Empty" })
  expect(refused.status).toBe(422)
  expect(error(refused, "words")).toBe("Say something, or choose a bake or a plot.")
})

test("words that are too long are refused beside their field and kept", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  const long = "long ".repeat(5_000)
  const refused = await cast.ana.submit(day.url, filledIn(day, cast, { words: long, "pairs.0.why": long }))
  expect(refused.status).toBe(422)
  expect(error(refused, "words")).toBe("Keep it under 20000 characters.")
  expect(text(refused, "words")).toBe(long)
  expect(text(refused, "pairs.0.why")).toContain("long long")
  expect(wordsOf(refused.page.querySelector("#saved"))).toContain("Not saved yet")
})

test("of two who write at once, the later does not win unseen: both texts are there to read", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  await cast.ana.submit(day.url, filledIn(day, cast))
  const [anas, olgas] = [await cast.ana.open(`${day.url}/edit`), await cast.olga.open(`${day.url}/edit`)]
  const from = (page: Page, words: string) =>
    filledIn(day, cast, { words, formId: value(page, "formId")!, basedOn: value(page, "basedOn")! })
  expect((await cast.olga.submit(day.url, from(olgas, "Olga’s words."))).status).toBe(303)

  const refused = await cast.ana.submit(day.url, from(anas, "Ana’s words."))

  expect(refused.status).toBe(422)
  const quarrel = refused.page.querySelector("#saved")!
  expect(wordsOf(quarrel)).toContain("saved this review at")
  expect(quarrel.querySelectorAll("textarea").map((one) => one.text)).toEqual(["Olga’s words.", "Ana’s words."])
  expect(text(refused, "words")).toBe("Ana’s words.")
  expect(text(await cast.ana.open(`${day.url}/edit`), "words")).toBe("Olga’s words.")

  // pressing save again still does not overwrite; saying so does
  const again = { ...from(anas, "Ana’s words."), basedOn: value(refused, "basedOn")! }
  expect((await cast.ana.submit(day.url, again)).status).toBe(422)
  const over = refused.page.querySelector("#saved button[name=over]")!.getAttribute("value")!
  expect((await cast.ana.submit(day.url, { ...again, over })).status).toBe(303)
  expect(text(await cast.olga.open(`${day.url}/edit`), "words")).toBe("Ana’s words.")
})

test("publishing on top of what somebody else wrote meanwhile is refused too", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  await cast.olga.submit(day.url, filledIn(day, cast, { formId: "olga’s" }))
  const refused = await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast, { formId: "ana’s" }))
  expect(refused.status).toBe(422)
  expect((await cast.ben.open(day.url)).text).toContain("not out yet")
})

test("one form may save as often as it likes", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  for (const words of ["One.", "One. Two.", "One. Two. Three."])
    expect((await cast.ana.submit(day.url, filledIn(day, cast, { words }))).status).toBe(303)
  expect(text(await cast.ana.open(`${day.url}/edit`), "words")).toBe("One. Two. Three.")
})

test("a button moves a bake before or behind another", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  const { location } = await cast.ana.submit(day.url, filledIn(day, cast, { move: `earlier ${day.beas}` }))
  expect(location).toBe(`${day.url}/edit#choice-${day.beas}`)
  expect(chosen(await cast.ana.open(`${day.url}/edit`))).toEqual(["Bea", "Ben"])
  // at the end there is nowhere to go
  await cast.ana.submit(day.url, { ...filledIn(day, cast), move: `earlier ${day.bens}` })
  expect(chosen(await cast.ana.open(`${day.url}/edit`))).toEqual(["Ben", "Bea"])
})

test("bakes picked on the table are ticked when the desk opens", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  expect(chosen(await cast.ana.open(`${day.url}/edit?bakes=${day.beas}`))).toEqual(["Bea"])
  expect(chosen(await cast.ana.open(`${day.url}/edit?bakes=${day.beas}&bakes=${day.bens}&bakes=x`))).toEqual([
    "Bea",
    "Ben",
  ])
})

test("only instructors write and publish", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  for (const who of [cast.asta, cast.ben]) {
    expect((await who.submit(day.url, filledIn(day, cast))).status).toBe(403)
    expect((await who.submit(`${day.url}/editions`, filledIn(day, cast))).status).toBe(403)
  }
  expect((await cast.cleo.submit(`${day.url}/editions`, filledIn(day, cast))).status).toBe(404)
})
