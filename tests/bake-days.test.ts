import { bakeDays, bakes } from "../server/schema.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const written = {
  title: "Tin loaf in a cold week",
  opensOn: "2027-01-15",
  closesOn: "2027-01-17",
  onTableTime: "18:30",
  lookFor: "A dome over the rim.",
  targetDoughC: "75 F",
  targetRise: "50 %",
}

test("an instructor gives a class a bake day, in words and units of their own", async ({ cast, db }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const made = await cast.ana.submit("/bake-days", {
    ...written,
    classId: String(cast.classId),
    revisionId: String(revisionId),
  })
  expect(made.status).toBe(303)

  const { page } = await cast.ben.open(made.location!)
  expect(wordsOf(page.querySelector("h1"))).toBe("Tin loaf in a cold week")
  expect(wordsOf(page.querySelector("dl.figures"))).toContain("23.9 °C")
  expect(wordsOf(page.querySelector("dl.figures"))).toContain("+50 %")
  expect(wordsOf((await cast.ben.open(`/classes/${cast.classId}`)).page.querySelector(".rows"))).toContain(
    "Tin loaf in a cold week",
  )
})

test("a bad bake day gives the form back as typed, with a message beside each field", async ({ cast, db }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const bad = {
    ...written,
    revisionId: String(revisionId),
    classId: String(cast.classId),
    closesOn: "2027-01-14",
    targetDoughC: "300",
    onTableTime: "25:00",
  }
  const { status, page } = await cast.ana.submit("/bake-days", bad)

  expect(status).toBe(422)
  expect(wordsOf(page.querySelector("#onTableTime-error"))).toBe("Give a time, such as 18:30.")
  expect(page.querySelector("#targetDoughC-error")).not.toBeNull()
  expect(page.querySelector("#targetDoughC")?.getAttribute("value")).toBe("300")
  expect(page.querySelector("#lookFor")?.text).toBe("A dome over the rim.")

  const backwards = await cast.ana.submit("/bake-days", { ...bad, targetDoughC: "", onTableTime: "18:00" })
  expect(wordsOf(backwards.page.querySelector("#closesOn-error"))).toBe("The last day is before the first.")
})

test("a teacher gives only their own formulas, and only to their own classes", async ({ cast, db }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const stolen = await cast.cleo.submit("/bake-days", {
    ...written,
    classId: String(cast.otherClassId),
    revisionId: String(revisionId),
  })
  expect(wordsOf(stolen.page.querySelector("#revisionId-error"))).toBe(
    "Choose a formula of your own that you have published.",
  )
  const elsewhere = await cast.ana.submit("/bake-days", {
    ...written,
    classId: String(cast.otherClassId),
    revisionId: String(revisionId),
  })
  expect(wordsOf(elsewhere.page.querySelector("#classId-error"))).toBe("Choose a class that you teach.")
})

test("the schedule counts back from each student's own table, in both clocks", async ({ cast, db }) => {
  // Lisbon is an hour ahead of the Azores all year
  const { bakeDayId } = await giveBakeDay(db, cast, { opensOn: "2027-01-15", closesOn: "2027-01-17" })
  await cast.ben.submit("/account/preferences", {
    temperatureUnit: "C",
    massUnit: "g",
    measures: "us",
    zone: "Atlantic/Azores",
  })
  expect((await cast.ben.submit(`/bake-days/${bakeDayId}/plan`, { day: "2027-01-16", time: "19:00" })).status).toBe(303)

  const { page } = await cast.ben.open(`/bake-days/${bakeDayId}`)
  const times = page.querySelectorAll(".schedule .when").map(wordsOf)
  // mix 20, bulk 4–6 h (the middle, 5 h), shape 20, proof 2 h, bake 40, cool 60 before 19:00
  expect(times).toEqual([
    "09:40 10:40 in Lisbon",
    "10:00 11:00 in Lisbon",
    "15:00 16:00 in Lisbon",
    "15:20 16:20 in Lisbon",
    "17:20 18:20 in Lisbon",
    "18:00 19:00 in Lisbon",
    "19:00 20:00 in Lisbon",
  ])
  expect(wordsOf(page.querySelectorAll(".schedule .what")[1]!)).toContain("begin between 09:00 and 11:00")
  expect(wordsOf((await cast.bea.open(`/bake-days/${bakeDayId}`)).page.querySelector(".big"))).toContain(
    "the instructor's suggestion",
  )
})

test("a day outside the window, or none at all, is refused", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, { opensOn: "2027-01-15", closesOn: "2027-01-17" })
  const outside = await cast.ben.submit(`/bake-days/${bakeDayId}/plan`, { day: "2027-01-18", time: "19:00" })
  expect(outside.status).toBe(422)
  expect(wordsOf(outside.page.querySelector("#day-error"))).toBe("That day is outside the window.")
  const nonsense = await cast.ben.submit(`/bake-days/${bakeDayId}/plan`, { day: "2027-02-31", time: "noon" })
  expect(wordsOf(nonsense.page.querySelector("#time-error"))).toBe("Give a time, such as 18:30.")
})

test("a copy for the next class starts from the same words and asks for its days", async ({ cast, db }) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const { page } = await cast.ana.open(`/bake-days/new?copy=${bakeDayId}`)
  expect(page.querySelector("#lookFor")?.text).toBe("A dome just over the rim.")
  expect(page.querySelector("#revisionId option[selected]")?.getAttribute("value")).toBe(String(revisionId))
  expect(page.querySelector("#opensOn")?.getAttribute("value")).toBe("")
  expect((await cast.cleo.open(`/bake-days/new?copy=${bakeDayId}`)).text).not.toContain("A dome just over the rim.")
})

test("a bake day can be changed, and taken back until somebody bakes", async ({ cast, db }) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const { page } = await cast.ana.open(`/bake-days/${bakeDayId}/edit`)
  expect(page.querySelector("#classId"), "a bake day stays with its class").toBeNull()
  expect(page.querySelector("#title")?.getAttribute("value")).toBe("Tin loaf week")
  await cast.ana.submit(`/bake-days/${bakeDayId}`, { ...written, revisionId: String(revisionId) })
  expect(wordsOf((await cast.ben.open(`/bake-days/${bakeDayId}`)).page.querySelector("h1"))).toBe(
    "Tin loaf in a cold week",
  )

  await db.insert(bakes).values({ bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  const kept = await cast.ana.submit(`/bake-days/${bakeDayId}/removal`)
  expect(wordsOf(kept.page.querySelector("#removal-error"))).toBe(
    "Somebody has already baked; a bake day with bakes stays.",
  )
  await db.delete(bakes)
  expect((await cast.ana.submit(`/bake-days/${bakeDayId}/removal`)).status).toBe(303)
  expect(await db.$count(bakeDays)).toBe(0)
})

test("the front page shows what is open, and what one planned", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const past = await giveBakeDay(db, cast, { title: "Long ago", opensOn: "2020-01-01", closesOn: "2020-01-02" })
  expect(past.bakeDayId).not.toBe(bakeDayId)
  const { page } = await cast.ben.open("/")
  expect(wordsOf(page.querySelector(".rows"))).toContain("Tin loaf week")
  expect(wordsOf(page.querySelector(".rows"))).toContain("choose your day and time")
  expect(wordsOf(page.querySelector(".rows"))).not.toContain("Long ago")
})
