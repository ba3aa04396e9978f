import type { FastifyInstance, FastifyRequest } from "fastify"
import { type Say, sayTo } from "../accounts/say.ts"
import { classOfBakeDay } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import type { Role } from "../schema.ts"
import { listNotStarted } from "../table/queries.ts"
import { idOf, type Viewer, viewerOf } from "../web/access.ts"
import type { Following } from "../web/notices.ts"
import { shareWork } from "../web/shared-work.ts"
import { type Fragment, regionsIn, rowOf } from "./fragments.ts"
import { listBenches, type Row, versionOfDay } from "./queries.ts"
import { hidden, roleNow, signedOut } from "./standing.ts"
import type { LivePage } from "./stream.ts"
import { benchWords, summary } from "./words.ts"

const list = "bench-rows"

/** What _benches.eta shows on the page of a bake day. */
export async function benchesOf(db: Db, day: { id: number; classId: number }, viewer: Viewer, role: Role) {
  const [now, say, staff] = [new Date(), sayTo(viewer), role !== "student"]
  const version = await versionOfDay(db, day.id)
  const rows = seenBy(viewer, staff, await listBenches(db, day.id, now))
  const notBegun = staff ? await listNotStarted(db, day.id, day.classId) : null
  return {
    rows: rows.map((row) => rowFor(row, { you: row.userId === viewer.id, staff, say, now })),
    total: { words: summary(rows, staff), notBegun },
    version,
  }
}

/** A student sees the benches that are shared, and first their own; the staff all, and no list ranks anybody. */
function seenBy(viewer: Viewer, staff: boolean, rows: Row[]) {
  const own = rows.filter(({ userId }) => userId === viewer.id)
  return [...own, ...rows.filter((row) => row.userId !== viewer.id && (staff || row.shared))]
}

type Reader = { you: boolean; staff: boolean; say: Say; now: Date }
const rowFor = (row: Row, { you, staff, say, now }: Reader) => ({
  ...{ id: row.bakeId, you, way: row.way, unshared: !row.shared && (staff || you) },
  words: benchWords(staff || you ? row : { ...row, asks: null }, say, now),
})

/** The open page of a bake day. A row is drawn once for all who read it alike, and once more for its own baker. */
export function liveDay(request: FastifyRequest): LivePage {
  const { server: app } = request
  const { db } = app
  const [dayId, viewer] = [idOf(request), viewerOf(request)]
  const say = sayTo(viewer)
  const classId = (following: Following) => following.share("class", () => classOfBakeDay(db, dayId))
  const roleHere = async (following: Following) => {
    const id = await classId(following)
    return id === undefined ? undefined : roleNow(db, following, id)
  }

  return {
    topic: `bake day ${dayId}`,
    lists: [list],
    beatsPerLook: 4,
    version: () => versionOfDay(db, dayId),
    refusal: async (following) => {
      const role = await roleHere(following)
      return role === "signed out" ? signedOut : role ? "" : hidden
    },
    look: async (following) => {
      const staff = (await roleHere(following)) !== "student"
      const { now, rows, drawings } = await following.share("benches", async () => {
        const now = new Date()
        return { now, rows: await listBenches(db, dayId, now), drawings: shareWork(Number.POSITIVE_INFINITY) }
      })
      const draw = (row: Row, you: boolean) => drawRow(app, following, row, { you, staff, say, now })
      const alike = [staff, viewer.temperatureUnit, viewer.clock, viewer.zone].join(" ")
      // kept with the very rows they are drawn from: whoever looks later, after a change, must not be given these
      const drawn = await drawings.share(alike, async () => {
        const theirs = rows.filter(({ shared }) => staff || shared)
        return new Map(await Promise.all(theirs.map(async (row) => [row.bakeId, await draw(row, false)] as const)))
      })
      const seen = seenBy(viewer, staff, rows)
      const notBegun = () => classId(following).then((id) => listNotStarted(db, dayId, id!))
      const total = {
        words: summary(seen, staff),
        notBegun: staff ? await following.share("not begun", notBegun) : null,
      }
      return [
        ...(await following.shareOf(`total ${staff}`, JSON.stringify(total), () => drawTotal(app, total))),
        ...(await Promise.all(
          seen.map((row) => (row.userId === viewer.id ? draw(row, true) : drawn.get(row.bakeId)!)),
        )),
      ]
    },
  }
}

/** A row that reads as it did before is not drawn again, whatever happened at the other benches. */
function drawRow(app: FastifyInstance, following: Following, row: Row, reader: Reader): Promise<Fragment> {
  const { you, staff, say, now } = reader
  const readBy = ["row", row.bakeId, you, staff, say.temperatureUnit, say.clock, say.zone].join(" ")
  return following.shareOf(readBy, say.day(now) + JSON.stringify(row), async () =>
    rowOf(await app.view("bake-days/_bench", { row: rowFor(row, reader) }), list),
  )
}

const drawTotal = async (app: FastifyInstance, total: { words: string; notBegun: string[] | null }) =>
  regionsIn(await app.view("bake-days/_benches-total", { total }))
