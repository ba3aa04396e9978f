import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { type BakeDay, findBakeDay } from "../bake-days/queries.ts"
import { roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import type { Asking } from "../table/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { wallTimeWithOffset } from "../web/zones.ts"
import { listExported } from "./queries.ts"

/** What every file of an export is made from: the bake day, who asks, and which of its bakes they may see. */
export type Asked = Awaited<ReturnType<typeof askedIn>>

export async function askedIn(request: FastifyRequest) {
  const { db } = request.server
  const bakeDay: BakeDay = found(await findBakeDay(db, idOf(request)))
  const viewer = viewerOf(request)
  const asking: Asking = { viewer, role: (await roleIn(db, viewer, bakeDay.classId)) ?? "student" }
  return {
    db: db as Db,
    bakeDay,
    asking,
    seesAll: asking.role !== "student",
    bakes: await listExported(db, bakeDay.id, asking),
    now: new Date(),
    // the same units for everybody, whoever asks
    say: sayTo({ temperatureUnit: "C", massUnit: "g", zone: bakeDay.zone }),
    /** An instant as every file writes it: by the class's clock, with its distance from UTC. */
    at: (instant: Date | null | undefined) => (instant ? wallTimeWithOffset(instant, bakeDay.zone) : null),
  }
}
