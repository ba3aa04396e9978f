import { eq } from "drizzle-orm"
import { deleteBake } from "../server/bakes/queries.ts"
import { leave, renameMember } from "../server/classes/queries.ts"
import { bakes, photos, readings, reviewComments, users } from "../server/schema.ts"
import { error } from "./bench.ts"
import { giveBakeDay } from "./class-day.ts"
import { filledIn, published, reviewedDay } from "./reviews/class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const review = ({ page }: Page) => wordsOf(page.querySelector(".review"))
const pictures = ({ page }: Page) => page.querySelectorAll(".review img").map((image) => image.getAttribute("src"))

test("before anything is published students read a plain sentence, and the instructor is asked to write", async ({
  db,
  cast,
}) => {
  const { url } = await reviewedDay(db, cast)

  const bens = await cast.ben.open(url)
  expect(bens.status).toBe(200)
  expect(bens.text).toContain("The review of this bake day is not out yet.")
  expect(bens.text).not.toContain("Write the review")
  expect((await cast.ana.open(url)).text).toContain("Write the review")
})

test("students see nothing of a draft, instructors see it as the class would", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  await cast.ana.submit(day.url, filledIn(day, cast))

  expect((await cast.ben.open(day.url)).text).not.toContain("Warm kitchens")
  for (const address of [`${day.url}/screens/1`, `${day.url}/editions/1`])
    expect((await cast.ben.open(address)).status).toBe(404)
  for (const address of [`${day.url}/draft`, `${day.url}/edit`]) expect((await cast.ben.open(address)).status).toBe(403)
  expect(review(await cast.ana.open(`${day.url}/draft`))).toContain("Warm kitchens, cold kitchens")
})

test("a published review says its words, its pairs, the bakes with verdicts and causes, its plots, and what comes next", async ({
  db,
  cast,
}) => {
  const day = await published(db, cast)

  const bens = await cast.ben.open(day.url)

  expect(wordsOf(bens.page.querySelector(".words-of"))).toBe("The clock lies. The jar does not.")
  expect(wordsOf(bens.page.querySelector(".review-pair .pair-why"))).toBe("One formula, six degrees apart.")
  const [ben, bea] = bens.page.querySelectorAll(".review section > .reviewed").map(wordsOf)
  expect(ben).toMatch(
    /^Ben your bake attic kitchen .* well proofed .*7\.3 ref h, plan 7\.3 · dough 24 °C · rise \+50 %/,
  )
  expect(bea).toMatch(/^Bea .* underproofed .*dough 18 °C · rise \+10 %/)
  expect(bens.page.querySelectorAll(".review .causes li").length).toBeGreaterThan(0)
  expect(bens.page.querySelectorAll(".review .plot").length).toBeGreaterThan(0)
  expect(wordsOf(bens.page.querySelector(".next-time .words"))).toBe("Begin at eight.")
})

test("verdicts and causes stay away where the instructor leaves them out", async ({ db, cast }) => {
  const day = await published(db, cast, { showVerdicts: "", showCauses: "" })
  const bens = await cast.ben.open(day.url)
  expect(review(bens)).not.toContain("proofed")
  expect(bens.page.querySelectorAll(".review .causes, .review .hill")).toHaveLength(0)
})

test("an outsider finds nothing, not even that there is a review", async ({ db, cast }) => {
  const day = await published(db, cast)
  const recap = day.url.replace("review", "recap")
  for (const address of [day.url, `${day.url}/editions/1`, `${day.url}/screens/1`, `${day.url}/edit`, recap])
    for (const who of [cast.cleo, cast.dan]) expect((await who.open(address)).status, address).toBe(404)
  expect((await cast.dan.submit(`${day.url}/comments`, { words: "Hello" })).status).toBe(404)
  expect((await cast.stranger.open(day.url)).location).toContain("/sign-in")
})

test("words to one student are read by that student and the staff", async ({ db, cast }) => {
  const { url } = await published(db, cast)

  const beas = await cast.bea.open(url)
  expect(wordsOf(beas.page.querySelector(".for-you"))).toContain("Bea, move the bowl.")
  expect((await cast.ben.open(url)).text).not.toContain("move the bowl")
  expect((await cast.ben.open(`${url}/editions/1`)).text).not.toContain("move the bowl")
  expect((await cast.asta.open(url)).text).toContain("move the bowl")
  for (const screen of [1, 2, 3, 4, 5])
    expect((await cast.ana.open(`${url}/screens/${screen}`)).text).not.toContain("move the bowl")
})

test("only photos for the class stand in it, for the staff as well", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  expect((await cast.ana.open(`${day.url}/edit`)).text).not.toContain(day.bensOwn)
  await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast, { [`photos.${day.bensOwn}`]: "on" }))
  for (const who of [cast.ben, cast.bea, cast.ana]) {
    const page = await who.open(day.url)
    expect(page.text).toContain(day.bensCrumb)
    expect(page.text).not.toContain(day.bensOwn)
  }
})

test("a photo that is withdrawn is gone from every edition, for everybody", async ({ db, cast }) => {
  const day = await published(db, cast)
  await cast.ana.submit(`${day.url}/editions`, { ...filledIn(day, cast), whatChanged: "A comma." })
  expect(pictures(await cast.bea.open(`${day.url}/editions/1`))).toContain(`/photos/${day.bensCrumb}/small`)

  await cast.ben.submit(`/photos/${day.bensCrumb}/visibility`) // for the instructors only
  await cast.bea.submit(`/photos/${day.beasCrumb}/removal`)

  for (const who of [cast.bea, cast.ben, cast.ana, cast.olga])
    for (const address of [day.url, `${day.url}/editions/1`, `${day.url}/draft`]) {
      const { text } = await who.open(address)
      expect(text, address).not.toContain(day.bensCrumb)
      expect(text, address).not.toContain(day.beasCrumb)
    }
})

test.for(["unshared", "deleted"] as const)(
  "a bake that is %s leaves its name and its figures behind nowhere",
  async (how, { db, cast }) => {
    const day = await reviewedDay(db, cast)
    const plots = [
      "rises",
      "temperatures",
      "stages",
      ...[day.bens, day.beas].flatMap((id) => [`rise-${id}`, `temperature-${id}`, `stages-${id}`]),
    ]
    const words = { words: "Look at the crumbs.", "pairs.0.why": "Six degrees apart." }
    const chosen = Object.fromEntries(plots.map((key) => [`plots.${key}`, "on"]))
    await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast, { ...words, ...chosen }))
    const before = await cast.ben.open(day.url)
    expect(review(before)).toContain("Bea")
    expect(before.page.querySelectorAll(".review .plot").length).toBeGreaterThan(plots.length / 2)

    if (how === "unshared") await db.update(bakes).set({ shared: false }).where(eq(bakes.id, day.beas))
    else await deleteBake(db, day.beas)

    const addresses = [
      day.url,
      `${day.url}/editions/1`,
      ...[1, 2, 3, 4, 5].map((screen) => `${day.url}/screens/${screen}`),
    ]
    for (const address of addresses) {
      const { text } = await cast.ben.open(address)
      expect(text, address).not.toMatch(/\bBea\b/)
      expect(text, address).not.toContain("18 °C")
      expect(text, address).not.toContain(day.beasCrumb)
    }
    expect(review(await cast.ben.open(day.url))).toContain("A bake that is not shared any more.")
    expect(wordsOf((await cast.ana.open(day.url)).page.querySelector(".caution"))).toContain(
      "Bea’s bake is not shared any more",
    )
  },
)

test("whoever has left the class stands in it without name", async ({ db, cast }) => {
  const day = await published(db, cast, { words: "", "pairs.0.why": "Six degrees apart." })
  await leave(db, cast.classId, cast.bea.id)
  const bens = await cast.ben.open(day.url)
  expect(review(bens)).not.toMatch(/\bBea\b/)
  expect(review(bens)).toContain("Somebody who has left the class")
})

test("an edition stays as it was, whatever becomes of the bakes and the draft", async ({ db, cast }) => {
  const day = await published(db, cast)
  const before = review(await cast.ben.open(day.url))

  await db.update(readings).set({ value: 31 }).where(eq(readings.bakeId, day.bens))
  await db.update(bakes).set({ kitchen: "moved to the cellar" }).where(eq(bakes.id, day.bens))
  await renameMember(db, cast.classId, cast.ben.id, "Benedict")
  await cast.ana.submit(day.url, { ...filledIn(day, cast), title: "Something else", words: "Quite another thing." })

  expect(review(await cast.ben.open(day.url))).toBe(before)
})

test("a correction is a new edition that says what is changed, and the older one stays readable", async ({
  db,
  cast,
}) => {
  const day = await published(db, cast)
  const corrected = filledIn(day, cast, { words: "The clock lies a little." })

  const silent = await cast.ana.submit(`${day.url}/editions`, corrected)
  expect(silent.status).toBe(422)
  expect(error(silent, "whatChanged")).toBe("Say what is changed, for those who have read it already.")
  await cast.ana.submit(`${day.url}/editions`, { ...corrected, whatChanged: "The clock was blamed too much." })

  const newest = await cast.ben.open(day.url)
  expect(review(newest)).toContain("corrected, edition 2: The clock was blamed too much.")
  expect(review(newest)).toContain("The clock lies a little.")
  expect(newest.page.querySelectorAll("#history-title + ol > li").map(wordsOf)).toEqual([
    expect.stringMatching(/^Edition 2, the one you are reading .* by Ana: The clock was blamed too much\.$/),
    expect.stringMatching(/^Edition 1 .* by Ana$/),
  ])
  const first = await cast.ben.open(`${day.url}/editions/1`)
  expect(review(first)).toContain("The clock lies. The jar does not.")
  expect(review(first)).toContain("This is an older edition")
  for (const none of ["0", "3", "01", "x", "99999999999"])
    expect((await cast.ben.open(`${day.url}/editions/${none}`)).status).toBe(404)
})

test("figures are read in one's own units", async ({ db, cast }) => {
  const day = await published(db, cast)
  await db.update(users).set({ temperatureUnit: "F" }).where(eq(users.id, cast.ben.id))
  const bens = review(await cast.ben.open(day.url))
  expect(bens).toContain("dough 64.4 °F")
  expect(bens).not.toContain("°C")
})

test("members comment, and their words are taken back by themselves or the staff", async ({ db, cast }) => {
  const day = await published(db, cast)
  const { location } = await cast.ben.submit(`${day.url}/comments`, { words: "Mine stood by the <b>stove</b>." })
  const [comment] = await db.select().from(reviewComments)
  expect(location).toBe(`${day.url}#comment-${comment!.id}`)
  const said = (page: Page) => wordsOf(page.page.querySelector("#comments .said"))
  expect(said(await cast.bea.open(day.url))).toContain("Ben · ")
  expect(said(await cast.bea.open(day.url))).toContain("Mine stood by the <b>stove</b>.")

  expect((await cast.bea.submit(`/review-comments/${comment!.id}/removal`)).status).toBe(403)
  expect((await cast.dan.submit(`/review-comments/${comment!.id}/removal`)).status).toBe(404)
  await cast.asta.submit(`/review-comments/${comment!.id}/removal`)
  expect(said(await cast.bea.open(day.url))).toContain("taken back")
  expect((await cast.bea.open(day.url)).text).not.toContain("stove")
})

test("an empty comment is refused, a long one kept to be shortened", async ({ db, cast }) => {
  const day = await published(db, cast)
  const empty = await cast.ben.submit(`${day.url}/comments`, { words: " " })
  expect(empty.status).toBe(422)
  expect(error(empty, "comment-words")).toBe("Write something first.")
  const long = await cast.ben.submit(`${day.url}/comments`, { words: "so ".repeat(500) })
  expect(long.status).toBe(422)
  expect(long.page.querySelector("#comment-words")!.text).toContain("so so so")
})

test("on a wall stands one thing at a time, with links back and on", async ({ db, cast }) => {
  const day = await published(db, cast)
  const kinds: string[] = []
  for (let address = `${day.url}/screens/1`; address; ) {
    const { page } = await cast.ben.open(address)
    kinds.push(/wall-(\w+)/.exec(page.querySelector(".on-wall")!.getAttribute("class")!)![1]!)
    address = page.querySelector(".wall-ways [rel=next]")?.getAttribute("href") ?? ""
  }
  expect(kinds.join(" ")).toMatch(/^title words pair bake bake( plot)+ next$/)
  const last = await cast.ben.open(`${day.url}/screens/${kinds.length}`)
  expect(last.page.querySelector(".wall-ways [rel=prev]")!.getAttribute("href")).toBe(
    `${day.url}/screens/${kinds.length - 1}`,
  )
  expect((await cast.ben.open(`${day.url}/screens/${kinds.length + 1}`)).status).toBe(404)
})

test("who missed the day reads it in a minute, who was there how their bake lay against the class", async ({
  db,
  cast,
}) => {
  const day = await published(db, cast)
  const recap = `/bake-days/${day.bakeDayId}/recap`

  const astas = await cast.asta.open(recap)
  expect(wordsOf(astas.page.querySelector("main"))).toMatch(
    /Tin loaf, revision 1\. Of 2 bakes, 1 underproofed, 1 well proofed\..*The clock lies\. ?Read the whole review: Warm kitchens, cold kitchens.*Begin at eight\..*Until .* in this bake day/,
  )
  expect(astas.text).not.toContain("against the class")
  const note = wordsOf((await cast.bea.open(recap)).page.querySelector(".note"))
  expect(note).toContain("Your dough fermented")
  expect(note).toContain("t was called underproofed, the only one of 2")
})

test("without a review the recap says so and points to the table", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { page } = await cast.ben.open(`/bake-days/${bakeDayId}/recap`)
  expect(wordsOf(page.querySelector("main"))).toContain("Nobody has shared a bake yet.")
  expect(wordsOf(page.querySelector("main"))).toContain("The review is not out yet.")
})

test("the class, the bake day and the front page say that a review is out, and only to the class", async ({
  db,
  cast,
}) => {
  const day = await reviewedDay(db, cast)
  const places = ["/", `/classes/${cast.classId}`, `/bake-days/${day.bakeDayId}`]
  const line = "The review of Tin loaf week is out"
  for (const place of places) expect((await cast.ben.open(place)).text).not.toContain(line)
  await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast))
  for (const place of places) {
    const { page } = await cast.ben.open(place)
    expect(wordsOf(page.querySelector("main")), place).toContain(line)
    expect(page.querySelector(`a[href="${day.url}"]`), place).toBeTruthy()
  }
  expect((await cast.dan.open("/")).text).not.toContain(line)
})

test("a chosen photo of another's bake, or of no bake, is not let in", async ({ db, cast }) => {
  const day = await reviewedDay(db, cast)
  const [stray] = await db
    .insert(photos)
    .values({
      userId: cast.ana.id,
      formulaId: day.formulaId,
      subject: "crumb",
      takenAt: new Date(),
      forClass: true,
      width: 6,
      height: 4,
    })
    .returning()
  await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast, { [`photos.${stray!.id}`]: "on" }))
  expect((await cast.ben.open(day.url)).text).not.toContain(stray!.id)
})
