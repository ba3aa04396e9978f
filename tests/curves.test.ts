import { gzipSync } from "node:zlib"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { bakes } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { disagreements, drawnIn } from "./plots.ts"
import { statementsOf } from "./statements.ts"
import { addBake, addStudents, addWholeClass } from "./table/class.ts"
import { at, log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

/** Ben bakes to plan, Bea hardly reads anything. */
async function twoBakes(db: Db, cast: Cast) {
  const day = await giveBakeDay(db, cast)
  const bens = await addBake(
    db,
    day,
    cast.ben.id,
    log(onPlan, [
      ["dough", "09:00", 24],
      ["room", "09:10", 22],
      ["rise", "11:00", 0.12],
      ["dough", "12:30", 24.6],
      ["rise", "13:45", 0.48],
      ["rise", "15:30", 0.9],
    ]),
  )
  const beas = await addBake(db, day, cast.bea.id, log({ bulk: ["10:00"] }, [["dough", "10:05", 21]]))
  return { url: `/bake-days/${day.bakeDayId}/curves`, bens, beas }
}

async function wholeClass(db: Db, cast: Cast, count = 30) {
  const day = await giveBakeDay(db, cast)
  const bakeIds = await addWholeClass(db, day, await addStudents(db, cast, count), 60)
  return { url: `/bake-days/${day.bakeDayId}/curves`, bakeIds }
}

const figuresOf = ({ page }: Page) => page.querySelectorAll("figure.plot")
const drawn = ({ page }: Page, id: string) => drawnIn(page.querySelector(`[id="${id}"]`)!, page).series
const cards = ({ page }: Page) => page.querySelectorAll(".card h2").map(wordsOf)

test.for(["start", "table", "clock", "from-proof", "reference"])(
  "lined up by %s, every plot draws what its numbers say",
  async (lined, { db, cast }) => {
    const { url } = await wholeClass(db, cast, 8)

    const curves = await cast.ben.open(`${url}?lined=${lined}`)

    expect(figuresOf(curves)).toHaveLength(3 * 8)
    const found = figuresOf(curves).flatMap((figure) => disagreements(figure, curves.page))
    expect(found).toEqual([])
    const points = figuresOf(curves)
      .flatMap((figure) => drawnIn(figure, curves.page).series)
      .flatMap((one) => one.points)
    expect(points.length).toBeGreaterThan(8 * 60)
  },
)

test("a rise begins at 0 with the bulk and ends with the shaping", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const rise = drawn(await cast.ana.open(url), `b${bens}-rise`).find(({ name }) => name === "rise of Ben")!

  expect(rise.points.map(({ x }) => Math.round(x * 20) / 20 + 0)).toEqual([0, 2, 4.75])
  expect(rise.points.map(({ y }) => Math.round(y))).toEqual([0, 12, 48])
})

test("beside it stand the plan by the model, and the target at the end of the planned bulk", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const series = drawn(await cast.ana.open(url), `b${bens}-rise`)

  const plan = series.find(({ name }) => name === "plan, by the model")!
  const target = series.find(({ name }) => name === "target at the planned end of bulk")!
  expect(plan.points[0]!.x).toBeCloseTo(0, 1)
  expect(plan.points[0]!.y).toBeCloseTo(0, 5)
  expect(plan.points.at(-1)!.x).toBeCloseTo(5, 1)
  expect(target.points[0]!.x).toBeCloseTo(5, 1)
  expect(target.points[0]!.y).toBeCloseTo(50, 0)
})

test("dough, room and the plan's temperature are drawn on one scale", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const series = drawn(await cast.ana.open(url), `b${bens}-temperature`)

  const cOf = (name: string) => series.find((one) => one.name === name)!.points.map(({ y }) => Number(y.toFixed(1)))
  expect(cOf("dough of Ben")).toEqual([24, 24.6])
  expect(cOf("room of Ben")).toEqual([22])
  expect(new Set(cOf("plan"))).toEqual(new Set([24]))
})

test("in reference hours a dough at 24 °C takes as many as the clock has", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const stages = drawn(await cast.ana.open(`${url}?lined=reference`), `b${bens}-stages`)

  const bulk = stages.find(({ name }) => name === "plan")!.points[0]!
  expect(bulk.until! - bulk.x).toBeCloseTo(5, 1)
})

test("fewer than five bakes have no middle, and the page says so", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const curves = await cast.ana.open(url)

  expect(wordsOf(curves.page.querySelector("main"))).toContain("a middle needs at least 5 bakes; there is 1.")
  expect(drawn(curves, `b${bens}-rise`).map(({ name }) => name)).not.toContain("middle of the class")
})

test("the middle of the class and its middle half are the same in every plot", async ({ db, cast }) => {
  const { url, bakeIds } = await wholeClass(db, cast, 6)

  const curves = await cast.ana.open(url)

  const middles = bakeIds.map((id) => drawn(curves, `b${id}-temperature`).filter(({ name }) => name.includes("class")))
  expect(middles[0]!.map(({ name }) => name)).toEqual(["middle half of the class", "middle of the class"])
  for (const middle of middles) expect(middle).toEqual(middles[0])
  const [half, line] = middles[0]!
  for (const [nth, { y }] of line!.points.entries()) {
    expect(y).toBeGreaterThanOrEqual(half!.points[nth]!.y - 0.1)
    expect(y).toBeLessThanOrEqual(half!.points[nth]!.high! + 0.1)
  }
})

test("all plots of a kind have one scale", async ({ db, cast }) => {
  const { url } = await wholeClass(db, cast, 3)

  const curves = await cast.ana.open(url)

  for (const kind of ["rise", "temperature", "stages"]) {
    const axes = curves.page.querySelectorAll(`.of-${kind} use`).map((use) => use.getAttribute("href"))
    expect(axes.filter((href) => href === `#class-${kind}-axes`)).toHaveLength(3)
  }
})

test("a bake that is not shared is neither drawn for classmates nor in their class's middle", async ({ db, cast }) => {
  const { url, bakeIds } = await wholeClass(db, cast, 5)
  await db.update(bakes).set({ shared: false }).where(eq(bakes.id, bakeIds[0]!))

  const [theirs, staffs] = [await cast.ben.open(url), await cast.asta.open(url)]

  expect(cards(staffs)).toHaveLength(5)
  expect(cards(theirs)).toHaveLength(4)
  expect(wordsOf(theirs.page.querySelector("main"))).toContain("a middle needs at least 5 bakes; there are 4.")
})

test("a class can be picked by its kitchens and grouped, and is still compared with all of it", async ({
  db,
  cast,
}) => {
  const { url, bakeIds } = await wholeClass(db, cast, 12)
  const all = await cast.ana.open(url)
  const band = all.page.querySelector("select[name=dough] option:nth-of-type(2)")!.getAttribute("value")

  const picked = await cast.ana.open(`${url}?dough=${band}&by=kitchen`)

  const shown = picked.page.querySelectorAll(".card")
  expect(shown.length).toBeGreaterThan(0)
  expect(shown.length).toBeLessThan(12)
  const id = shown[0]!.querySelector("figure")!.getAttribute("id")!
  const middle = (page: Page, of: string) => drawn(page, of).find(({ name }) => name === "middle of the class")
  expect(middle(picked, id)).toEqual(middle(all, `b${bakeIds[0]}-rise`))
})

test("a plot says in a sentence what it draws, also where nothing was measured", async ({ db, cast }) => {
  const { url, bens, beas } = await twoBakes(db, cast)

  const curves = await cast.ben.open(url)

  const says = (id: string) => curves.page.querySelector(`[id="${id}"] svg`)!.getAttribute("aria-label")
  expect(says(`b${bens}-rise`)).toBe("Ben: 3 points, the last +48 %, of 50 % wanted.")
  expect(says(`b${beas}-rise`)).toBe("No rise of Bea was read.")
  expect(says(`b${beas}-temperature`)).toBe("Dough of Bea: 21.0 °C once.")
})

test("nobody has baked yet", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)

  const { status, page } = await cast.ben.open(`/bake-days/${bakeDayId}/curves`)

  expect(status).toBe(200)
  expect(wordsOf(page.querySelector("main"))).toContain("Nobody has started yet.")
})

test("somebody in °F reads theirs, drawing and numbers alike", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)
  await cast.ben.submit("/account/preferences", {
    zone: "Europe/Lisbon",
    temperatureUnit: "F",
    massUnit: "g",
    measures: "metric",
  })

  const curves = await cast.ben.open(url)

  expect(wordsOf(curves.page.querySelector(`[id="b${bens}-temperature"]`))).toContain("Temperature, °F")
  expect(figuresOf(curves).flatMap((figure) => disagreements(figure, curves.page))).toEqual([])
})

test.for(["?lined=start", "?lined=clock", "?lined=reference"])(
  "the curves of 30 bakes with 60 readings each are light enough for a phone, %s",
  async (asked, { db, cast }) => {
    const { url, bakeIds } = await wholeClass(db, cast)
    // by the clock, each of them has a plan of its own
    for (const [nth, id] of bakeIds.entries())
      await db
        .update(bakes)
        .set({ onTableAt: new Date(+at("18:00") + nth * 60_000) })
        .where(eq(bakes.id, id))

    let opened: Page | undefined
    const said = await statementsOf(db, async () => {
      opened = await cast.ana.open(url + asked)
    })

    expect(figuresOf(opened!)).toHaveLength(90)
    expect(opened!.text).not.toMatch(/NaN|undefined|Infinity/)
    expect(Buffer.byteLength(opened!.text)).toBeLessThan(250_000)
    expect(gzipSync(opened!.text).length).toBeLessThan(60_000)
    expect(said.length).toBeLessThanOrEqual(4)
    if (process.env.DUMP) console.log(asked, Buffer.byteLength(opened!.text), gzipSync(opened!.text).length)
  },
)
