import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { findBakeDay, listBakeDays, listBakesBy } from "../bake-days/queries.ts"
import { windowNow } from "../bake-days/window.ts"
import { roleIn } from "../classes/access.ts"
import { listBakesOf } from "../table/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { dayOf } from "../web/zones.ts"
import { againstClass, callsIn, middleOf } from "./class-middle.ts"
import { figuresOf, layAs, layForClass } from "./class-view.ts"
import { openingOf } from "./markdown.ts"
import { findEdition } from "./queries.ts"

/** A bake day in a minute, for who was not there, and how one's own bake lay against the class, for who was. */
export async function recapPage(request: FastifyRequest) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const now = new Date()
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const content = (await findEdition(db, bakeDay.id))?.content
  const laid = await layForClass(db, bakeDay, now)
  const middle = content?.kept.class ?? middleOf(laid.map(figuresOf))
  const role = await roleIn(db, viewer, bakeDay.classId)
  const own = (await listBakesOf(db, bakeDay.id, { viewer, role })).filter(({ userId }) => userId === viewer.id)
  const [latest] = layAs(own, bakeDay, now).toReversed()
  const today = dayOf(now, bakeDay.zone)
  const inClass = await listBakeDays(db, { classId: bakeDay.classId })
  return {
    bakeDay,
    when: windowNow(bakeDay, now),
    again: inClass.filter(
      (day) => day.id !== bakeDay.id && day.formulaId === bakeDay.formulaId && day.closesOn >= today,
    ),
    out: content ? { title: content.title, opening: openingOf(content.words), nextTime: content.nextTime } : null,
    calls: callsIn(middle),
    own: latest ? { id: latest.bake.id, lay: againstClass(figuresOf(latest), middle, sayTo(viewer)) } : null,
    begun: (await listBakesBy(db, bakeDay.id, viewer.id)).length > 0,
  }
}
