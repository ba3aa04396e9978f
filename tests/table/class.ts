import { randomUUID } from "node:crypto"
import type { Db } from "../../server/db.ts"
import { bakes, marks, memberships, photos, readings, users } from "../../server/schema.ts"
import type { Cast } from "../cast.ts"
import { at, type log } from "./log.ts"

export type Day = { bakeDayId: number; revisionId: number }
type Logged = ReturnType<typeof log>

/** A bake as its log has it, finished at 19:00. */
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
    .values({ bakeDayId, revisionId, userId, ...times, ...changes })
    .returning()
  const bakeId = row!.id
  if (theirMarks.length) await db.insert(marks).values(theirMarks.map((mark) => ({ ...mark, bakeId })))
  if (theirReadings.length)
    await db
      .insert(readings)
      .values(theirReadings.map((one) => ({ ...one, bakeId, entryId: randomUUID(), typed: String(one.value) })))
  return bakeId
}

/** So many students more in the class of the tests. */
export async function addStudents(db: Db, { classId }: Cast, count: number): Promise<number[]> {
  const names = Array.from({ length: count }, (_, nth) => `student${String(nth + 1).padStart(4, "0")}`)
  const rows = await db
    .insert(users)
    .values(names.map((signInName) => ({ signInName, passwordHash: "none", zone: "Europe/Lisbon" })))
    .returning()
  await db
    .insert(memberships)
    .values(
      rows.map(({ id, signInName }) => ({ classId, userId: id, role: "student" as const, shownName: signInName })),
    )
  return rows.map(({ id }) => id)
}

/** Everybody's bake to about the plan, each a little warmer and longer than the one before, with so many readings. */
export async function addWholeClass(db: Db, day: Day, students: number[], readingsEach: number) {
  const times = students.map((_, nth) => ({
    bulk: new Date(+at("14:00") + (nth % 12) * 5 * 60_000),
    shaped: new Date(+at("14:20") + (nth % 12) * 5 * 60_000),
    proofed: new Date(+at("16:20") + (nth % 15) * 4 * 60_000),
  }))
  const rows = await db
    .insert(bakes)
    .values(
      students.map((userId, nth) => ({
        ...{ bakeDayId: day.bakeDayId, revisionId: day.revisionId, userId },
        ...{ onTableAt: at("18:00"), finishedAt: at("19:00"), kitchen: `kitchen no. ${nth + 1}` },
        vessel: nth % 3 ? ("tin" as const) : ("pot" as const),
      })),
    )
    .returning({ id: bakes.id })
  const bakeIds = rows.map(({ id }) => id)
  await inParts(
    bakeIds.flatMap((bakeId, nth) => marksOf(bakeId, times[nth]!)),
    (part) => db.insert(marks).values(part),
  )
  await inParts(
    bakeIds.flatMap((bakeId, nth) => readingsOf(bakeId, nth, readingsEach)),
    (part) => db.insert(readings).values(part),
  )
  await inParts(
    bakeIds.map((bakeId, nth) => ({
      ...{ userId: students[nth]!, bakeId, subject: "crumb" as const, takenAt: at("19:00") },
      ...{ forClass: true, width: 800, height: 600, acrossMm: 150 + (nth % 5) * 10 },
    })),
    (part) => db.insert(photos).values(part),
  )
  return bakeIds
}

const marksOf = (bakeId: number, { bulk, shaped, proofed }: { bulk: Date; shaped: Date; proofed: Date }) => [
  { bakeId, stageKey: "mix", startedAt: at("08:40"), endedAt: at("09:00") },
  { bakeId, stageKey: "bulk", startedAt: at("09:00"), endedAt: bulk },
  { bakeId, stageKey: "shape", startedAt: bulk, endedAt: shaped },
  { bakeId, stageKey: "proof", startedAt: shaped, endedAt: proofed },
  { bakeId, stageKey: "bake", startedAt: proofed, endedAt: new Date(+proofed + 40 * 60_000) },
]

/** Two of five of the dough, two of the room, one of the rise. */
function readingsOf(bakeId: number, nth: number, count: number) {
  return Array.from({ length: count }, (_, index) => {
    const kind = index % 5 === 4 ? ("rise" as const) : index % 2 ? ("room" as const) : ("dough" as const)
    const warmC = 20 + (nth % 9) + Math.sin(index + nth) / 2
    const value = kind === "rise" ? Math.min(0.6, (0.5 * index) / count) : Number(warmC.toFixed(1))
    const takenAt = new Date(+at("09:00") + (index * 7 * 3_600_000) / count)
    return { bakeId, kind, takenAt, value, typed: String(value), entryId: randomUUID() }
  })
}

/** A statement takes so many values and no more. */
async function inParts<Row>(rows: Row[], insert: (part: Row[]) => Promise<unknown>) {
  for (let from = 0; from < rows.length; from += 1000) await insert(rows.slice(from, from + 1000))
}
