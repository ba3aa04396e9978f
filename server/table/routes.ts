import type { FastifyInstance } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { type BakeDay, classOfBakeDay, findBakeDay } from "../bake-days/queries.ts"
import { membersOf, roleIn } from "../classes/access.ts"
import { idOf, type Viewer, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { layAxis } from "./axis.ts"
import { drawHill } from "./hill.ts"
import { listBakesOf, listNotStarted, type TableBake } from "./queries.ts"
import { drawRibbon } from "./ribbon.ts"
import { layRow } from "./row.ts"
import { sorted, type View, view } from "./sorting.ts"
import { timesTable } from "./times.ts"
import { wordsFor } from "./words.ts"

export default async function table(app: FastifyInstance) {
  app.get("/bake-days/:id/table", { config: { access: membersOf(classOfBakeDay) } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    const role = await roleIn(app.db, viewer, bakeDay.classId)
    const staff = role !== "student"
    const bakes = await listBakesOf(app.db, bakeDay.id, { viewer, role })
    return reply.view("table/show", {
      bakeDay,
      staff,
      notStarted: staff ? await listNotStarted(app.db, bakeDay.id, bakeDay.classId) : [],
      ...laid(bakes, bakeDay, view.parse(request.query), viewer),
    })
  })
}

function laid(bakes: TableBake[], bakeDay: BakeDay, asked: View, viewer: Viewer) {
  const [now, say] = [new Date(), sayTo(viewer)]
  const rows = bakes.map((bake) => ({
    bake,
    name: bake.name,
    nth: bake.nth,
    row: layRow(bake, bake.content.stages, bakeDay, now, bake.culture),
  }))
  const axis = layAxis(
    rows.map(({ row }) => row),
    asked.lined,
    bakeDay.zone,
  )
  const items = sorted(rows, asked).map((item) => ({
    ...item,
    words: wordsFor(item.row, item.name, say, bakeDay.zone),
    ribbon: drawRibbon(item.row, axis),
    hill: "mean" in item.row.verdict ? drawHill(item.row.verdict) : null,
    crumbs: item.bake.photos.filter(({ subject }) => subject === "crumb"),
  }))
  return { items, axis, asked, times: timesTable(items, bakeDay.content.stages) }
}
