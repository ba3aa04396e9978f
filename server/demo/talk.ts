import { and, eq, isNull } from "drizzle-orm"
import type { Db } from "../db.ts"
import { ask } from "../likeness/queries.ts"
import { addComment } from "../questions/queries.ts"
import { photos, type ReadingKind, readings } from "../schema.ts"
import type { Log } from "./bake-log.ts"

/** What one student asked at the bench, about the photo or the last reading of that stage, and what was said to it. */
type Talk = {
  who: string
  stage: string
  about: "photo" | ReadingKind
  afterMin: number
  words: string
  answer?: { who: string; afterMin: number; words: string }
}

const talks: Talk[] = [
  {
    who: "bodil",
    ...{ stage: "bulk", about: "rise", afterMin: 318 },
    words: "The plan says shape now, and the jar says no. Do I wait?",
    answer: {
      ...{ who: "marta", afterMin: 331 },
      words: "Wait for the jar: your kitchen is far cooler than the plan. Leave it in Bulk and look again in an hour.",
    },
  },
  {
    who: "lioba",
    ...{ stage: "bulk", about: "photo", afterMin: 152 },
    words: "Bubbles along the glass, but a flat top.",
  },
]

/** Whose photo the instructor would like to show, and as what. */
const wished = { who: "amparo", stageKey: "bulk", look: "ready" as const }

type Place = { who: string; bakeId: number; userId: number; formulaId: number; log: Log; ids: Map<string, number> }

/** What was asked and answered on one bake, and what its baker is asked for. */
export async function addTalk(db: Db, { who, bakeId, userId, formulaId, log, ids }: Place) {
  for (const { stage, about, afterMin, words, answer } of talks.filter((talk) => talk.who === who)) {
    const askedAt = log.momentIn(stage, afterMin)
    const thing = about === "photo" ? await photoOf(db, bakeId, stage) : await lastReading(db, bakeId, about, askedAt)
    const place = { ...thing, bakeId, stageKey: stage }
    await addComment(db, { ...place, userId, words, asks: true, madeAt: askedAt })
    if (!answer) continue
    const said = { words: answer.words, madeAt: log.momentIn(stage, answer.afterMin) }
    await addComment(db, { ...place, ...said, userId: ids.get(answer.who)! })
  }
  const { photoId } = who === wished.who ? await photoOf(db, bakeId, wished.stageKey) : {}
  const { stageKey, look } = wished
  if (photoId) await ask(db, { photoId, formulaId, stageKey, look, askedBy: ids.get("marta")! })
}

/** Nothing where nothing was drawn: then it is said under the bake. */
async function photoOf(db: Db, bakeId: number, stageKey: string): Promise<{ photoId?: string }> {
  const photo = await db.query.photos.findFirst({
    where: and(eq(photos.bakeId, bakeId), eq(photos.stageKey, stageKey)),
  })
  return photo ? { photoId: photo.id } : {}
}

async function lastReading(db: Db, bakeId: number, kind: ReadingKind, before: Date): Promise<{ readingId?: number }> {
  const ofKind = and(eq(readings.bakeId, bakeId), eq(readings.kind, kind), isNull(readings.removedAt))
  const all = await db.query.readings.findMany({ where: ofKind, orderBy: readings.takenAt })
  const last = all.findLast(({ takenAt }) => takenAt <= before)
  return last ? { readingId: last.id } : {}
}
