import { eq } from "drizzle-orm"
import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { mayDoAs } from "../bakes/access.ts"
import { benchPage } from "../bakes/page.ts"
import { findSharing } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { bakes, entries } from "../schema.ts"
import { idOf, type Viewer, viewerOf } from "../web/access.ts"
import type { Following } from "../web/notices.ts"
import { regionsIn } from "./fragments.ts"
import { hidden, roleNow, signedOut } from "./standing.ts"
import type { LivePage } from "./stream.ts"

/** The open bench of one bake. */
export function liveBench(request: FastifyRequest): LivePage {
  const { db } = request.server
  const id = idOf(request)
  const sharing = (following: Following) => following.share("sharing", () => findSharing(db, id))

  async function mayDo(following: Following) {
    const bake = await sharing(following)
    const role = bake && (await roleNow(db, following, bake.classId))
    if (role === "signed out") return role
    return bake && mayDoAs(viewerOf(request), role, bake)
  }

  return {
    topic: `bake ${id}`,
    lists: [],
    beatsPerLook: 8, // its clock is the page's own
    version: async () => {
      const bake = await db.query.bakes.findFirst({ where: eq(bakes.id, id), columns: { version: true } })
      return String(bake?.version ?? "gone")
    },
    refusal: async (following) => {
      const may = await mayDo(following)
      return may === "signed out" ? signedOut : may ? "" : hidden
    },
    look: async (following) => {
      const viewer = viewerOf(request)
      const writers = await following.share("writers", () => listWriters(db, id))
      const onlyReads = (await mayDo(following)) === "read" && !writers.has(viewer.id)
      const group = onlyReads ? `reads ${waysOf(viewer)}` : `is ${viewer.id}`
      return following.share(group, () => drawBench(request, { onlyReads }))
    },
  }
}

/** Who has left something of their own here and so sees more than another reader: a button to take it back, for one. */
async function listWriters(db: Db, bakeId: number) {
  const rows = await db.selectDistinct({ userId: entries.userId }).from(entries).where(eq(entries.bakeId, bakeId))
  return new Set(rows.map(({ userId }) => userId))
}

/** What a page is written in for somebody: units, measures and time zone. */
const waysOf = ({ temperatureUnit, massUnit, measures, clock, zone }: Viewer) =>
  [temperatureUnit, massUnit, measures, clock, zone].join(" ")

async function drawBench(request: FastifyRequest, { onlyReads }: { onlyReads: boolean }) {
  const viewer = viewerOf(request)
  const page = await benchPage(request)
  // drawn for many, it must not be what somebody sees who was given more rights this very moment
  if (onlyReads && page.writes)
    throw new Error("The rights changed while the bench was drawn; the page connects again.")
  const data = { ...page, viewer, say: sayTo(viewer), path: `/bakes/${idOf(request)}` }
  return regionsIn(await request.server.view("bakes/show", data))
}
