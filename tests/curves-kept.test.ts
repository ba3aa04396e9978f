import type { FastifyInstance } from "fastify"
import { parse } from "node-html-parser"
import { plotsOfBakeDay } from "../server/curves/for-review.ts"
import type { Db } from "../server/db.ts"
import type { Plot } from "../server/plots/plot.ts"
import { listBakesOf } from "../server/table/queries.ts"
import { layRow } from "../server/table/row.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { disagreements } from "./plots.ts"
import { addBake, addStudents, addWholeClass } from "./table/class.ts"
import { log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"

async function laidOf(db: Db, bakeDayId: number) {
  const made = await listBakesOf(db, bakeDayId, { viewer: { id: 0 }, role: "instructor" })
  return made.map((bake) => ({ bake, row: layRow(bake, bake.content.stages, bake, new Date(), bake.culture) }))
}

async function plotsOfClass(db: Db, cast: Cast, count: number) {
  const day = await giveBakeDay(db, cast)
  const bakeIds = await addWholeClass(db, day, await addStudents(db, cast, count), 20)
  return { bakeIds, plots: plotsOfBakeDay(await laidOf(db, day.bakeDayId), { zone: "Europe/Lisbon" }) }
}

/** As a review shows a plot that it kept. */
async function figureOf(app: FastifyInstance, plot: Plot) {
  const { view } = app as unknown as { view(page: string, data: object): Promise<string> }
  const kept = JSON.parse(JSON.stringify(plot))
  return parse(await view("/plots/_plot", { plot: kept, id: "kept", say: { temperatureUnit: "C" } })).querySelector(
    "figure",
  )!
}

test("a review may choose what the whole class did, and the three plots of each bake", async ({ db, cast }) => {
  const { bakeIds, plots } = await plotsOfClass(db, cast, 6)

  const ofBakes = bakeIds.flatMap((id) => [`rise-${id}`, `temperature-${id}`, `stages-${id}`])
  expect(plots.map(({ key }) => key).sort()).toEqual(["rises", "temperatures", "stages", ...ofBakes].sort())
})

test("kept as data and drawn again, every one of them draws what its numbers say", async ({ app, db, cast }) => {
  const { plots } = await plotsOfClass(db, cast, 6)

  for (const { plot } of plots) expect(disagreements(await figureOf(app, plot))).toEqual([])
})

test("where nothing was measured there is nothing to choose", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const bens = await addBake(db, day, cast.ben.id, log(onPlan))
  await addBake(db, day, cast.bea.id, log({}))

  const plots = plotsOfBakeDay(await laidOf(db, day.bakeDayId), { zone: "Europe/Lisbon" })

  expect(plots.map(({ key }) => key)).toEqual(["stages", `stages-${bens}`])
})
