import { eq } from "drizzle-orm"
import { users } from "../server/schema.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const settings = { temperatureUnit: "C", massUnit: "g", measures: "metric", clock: "24", zone: "Europe/Lisbon" }
const told = {
  ...{ room: "20", "room.measured": "on", fridge: "39 F", ovenSet: "230", ovenReads: "215", ovenHolds: "1" },
  ...{ cool: "12", coolPlace: "porch", altitude: "2,100 ft", scaleStep: "5 g", hydration: "80", thermometer: "yes" },
  ...{ flours: "Mill Lane strong white", "sleep.from": "22:30", "sleep.to": "06:00" },
  ...{ "busy.0.1": "on", "busy.0.3": "on", "busy.0.from": "09:00", "busy.0.to": "12:30", weeks: "1" },
}

test("a kitchen is kept as it was typed, and blank stays unknown", async ({ cast }) => {
  expect((await cast.ben.submit("/kitchen", { ...settings, ...told })).status).toBe(303)

  const { page } = await cast.ben.open("/kitchen")
  const value = (id: string) => page.querySelector(`[id="${id}"]`)?.getAttribute("value")
  expect(value("room")).toBe("20 °C")
  expect(page.querySelector('[name="room.measured"]')?.hasAttribute("checked")).toBe(true)
  expect(value("fridge")).toBe("39 F")
  expect(page.querySelector('[name="fridge.measured"]')?.hasAttribute("checked"), "assumed").toBe(false)
  expect([value("ovenSet"), value("ovenReads"), value("altitude")]).toEqual(["230 °C", "215 °C", "2,100 ft"])
  expect(value("proofer")).toBe("")
  expect(value("busy.0.from")).toBe("09:00")
  expect(page.querySelector('[name="busy.0.3"]')?.hasAttribute("checked")).toBe(true)
  expect(value("busy.1.from"), "one row stays free").toBe("")
})

test("what cannot be stands beside its field, and nothing is kept", async ({ cast }) => {
  const wrong = { room: "70", ovenReads: "", altitude: "9 km", "busy.0.1": "", "busy.0.3": "", "sleep.to": "noon" }
  const { status, page } = await cast.ben.submit("/kitchen", { ...settings, ...told, ...wrong })

  expect(status).toBe(422)
  const error = (id: string) => wordsOf(page.querySelector(`[id="${id}-error"]`))
  expect(error("room")).toBe("70 °C is not possible for a room. Is that 70 °F?")
  expect(error("ovenReads")).toBe("Say too what a thermometer in it read.")
  expect(error("altitude")).toBe("Give the height in m or ft, such as 650 m or 2100 ft.")
  expect(error("sleep.to")).toBe("Give a time, such as 22:30.")
  expect(error("busy.0.days")).toBe("Tick the days on which that is so.")
  expect(page.querySelector("#room")?.getAttribute("value")).toBe("70")
  const kept = (await cast.ben.open("/kitchen")).page
  expect(kept.querySelector("#fridge")?.getAttribute("value")).toBe("")
})

test("another row of busy hours comes without losing what was typed", async ({ cast }) => {
  const { status, page } = await cast.ben.submit("/kitchen", { ...settings, ...told, weeks: "2", more: "busy" })
  expect(status).toBe(200)
  expect(page.querySelectorAll(".kitchen-week")).toHaveLength(3)
  expect(page.querySelector("#room")?.getAttribute("value")).toBe("20")
})

test("settings changed in the kitchen are those of the account, and clocks follow them everywhere", async ({
  cast,
  db,
}) => {
  const { bakeDayId } = await giveBakeDay(db, cast, { opensOn: "2027-01-15", closesOn: "2027-01-17" })
  await cast.ben.submit("/kitchen", { ...settings, clock: "12", back: `/bake-days/${bakeDayId}` })
  const ben = await db.query.users.findFirst({ where: eq(users.id, cast.ben.id) })
  expect(ben?.clock).toBe("12")
  const { page } = await cast.ben.open(`/bake-days/${bakeDayId}`)
  expect(wordsOf(page.querySelector(".big b"))).toBe("8:40 am")
  expect(wordsOf(page.querySelector(".schedule"))).toContain("begin between 7:40 am and 9:40 am")
  expect((await cast.bea.open("/account")).page.querySelector("#clock option[selected]")?.text).toBe("16:30")
})

test("after a kitchen somebody is back where they came from, and never at another site", async ({ cast }) => {
  expect((await cast.ben.submit("/kitchen", { ...settings, back: "/bake-days/7/plan" })).location).toBe(
    "/bake-days/7/plan",
  )
  expect((await cast.ben.submit("/kitchen", { ...settings, back: "https://elsewhere.example/" })).location).toBe("/")
  expect((await cast.ben.submit("/kitchen", settings)).location).toBe("/kitchen?kept")
})

test("who has said nothing yet is asked gently, and once", async ({ cast }) => {
  const url = `/classes/${cast.classId}`
  expect((await cast.ben.open(url)).text).toContain("Say how warm your kitchen is")
  await cast.ben.submit("/kitchen", { ...settings, room: "20" })
  expect((await cast.ben.open(url)).text).not.toContain("Say how warm your kitchen is")
})
