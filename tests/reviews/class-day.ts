import { randomUUID } from "node:crypto"
import type { Db } from "../../server/db.ts"
import { bakes, marks, photos, readings } from "../../server/schema.ts"
import type { Cast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { at, log, onPlan } from "../table/log.ts"

type Logged = ReturnType<typeof log>
type Day = { bakeDayId: number; revisionId: number }

/** Puts a finished bake with this log into the database. */
export async function addBake(
  db: Db,
  { bakeDayId, revisionId }: Day,
  userId: number,
  logged: Logged,
  changes: Partial<typeof bakes.$inferInsert> = {},
) {
  const { marks: theirMarks, readings: theirReadings, ...times } = { ...logged, finishedAt: at("19:00") }
  const [row] = await db
    .insert(bakes)
    .values({ bakeDayId, revisionId, userId, onTableAt: times.onTableAt, finishedAt: times.finishedAt, ...changes })
    .returning()
  const bakeId = row!.id
  for (const mark of theirMarks) await db.insert(marks).values({ ...mark, bakeId })
  for (const reading of theirReadings)
    await db.insert(readings).values({ ...reading, bakeId, entryId: randomUUID(), typed: String(reading.value) })
  return bakeId
}

export const warm = log(onPlan, [
  ["dough", "09:00", 24],
  ["dough", "16:20", 24],
  ["rise", "13:50", 0.5],
  ["finger", "16:00", "slowly-partly"],
])
export const cold = log({ ...onPlan, bulk: ["07:00", "14:00"] }, [
  ["dough", "07:00", 18],
  ["dough", "16:20", 18],
  ["rise", "13:50", 0.1],
])

/** Ben bakes to plan, Bea in a cold kitchen; each has a crumb for the class, and Ben one for the instructors only. */
export async function reviewedDay(db: Db, cast: Cast) {
  const day = await giveBakeDay(db, cast)
  const bens = await addBake(db, day, cast.ben.id, warm, { kitchen: "attic kitchen" })
  const beas = await addBake(db, day, cast.bea.id, cold)
  const [bensCrumb, beasCrumb, bensOwn] = await addPhotos(db, [
    { userId: cast.ben.id, bakeId: bens, forClass: true },
    { userId: cast.bea.id, bakeId: beas, forClass: true },
    { userId: cast.ben.id, bakeId: bens, forClass: false },
  ])
  const url = `/bake-days/${day.bakeDayId}/review`
  return { ...day, url, bens, beas, bensCrumb: bensCrumb!, beasCrumb: beasCrumb!, bensOwn: bensOwn! }
}

async function addPhotos(db: Db, given: Pick<typeof photos.$inferInsert, "userId" | "bakeId" | "forClass">[]) {
  const picture = { subject: "crumb" as const, takenAt: new Date(), width: 60, height: 40 }
  const rows = await db
    .insert(photos)
    .values(given.map((one) => ({ ...picture, ...one })))
    .returning()
  return rows.map(({ id }) => id)
}

type Reviewed = Awaited<ReturnType<typeof reviewedDay>>

/** The form as the instructor fills it in: both bakes with their crumbs, side by side, and a word to Bea. */
export const filledIn = (day: Reviewed, cast: Cast, changes: Record<string, string> = {}) => ({
  ...{
    formId: "form one",
    basedOn: "",
    title: "Warm kitchens, cold kitchens",
    words: "The **clock** lies.\n\nThe jar does not.",
  },
  ...{ nextTime: "Begin at eight.", showVerdicts: "on", showCauses: "on" },
  ...{ "bakes.0.id": String(day.bens), "bakes.0.show": "on", "bakes.1.id": String(day.beas), "bakes.1.show": "on" },
  ...{ [`photos.${day.bensCrumb}`]: "on", [`photos.${day.beasCrumb}`]: "on", "plots.fermented": "on" },
  ...{
    "pairs.0.left": String(day.bens),
    "pairs.0.right": String(day.beas),
    "pairs.0.why": "One formula, six degrees apart.",
  },
  [`students.${cast.bea.id}`]: "Bea, move the bowl.",
  ...changes,
})

/** Ana publishes it. */
export async function published(db: Db, cast: Cast, changes: Record<string, string> = {}) {
  const day = await reviewedDay(db, cast)
  await cast.ana.submit(`${day.url}/editions`, filledIn(day, cast, changes))
  return day
}
