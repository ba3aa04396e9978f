import { randomUUID } from "node:crypto"
import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import type { Reading } from "../bakes/queries.ts"
import { nameOf, shownReading } from "../bakes/reading-words.ts"
import { viewerOf } from "../web/access.ts"
import { blank, type Form } from "../web/forms.ts"
import { listAnswered, listComments, listOpen, type Question, versionOfTalk } from "./queries.ts"
import { keyOf, threadsOf } from "./threads.ts"

/** The answer that came back with errors, by its question. */
type Refused = { id: number; form: Form }

/** Every question of somebody's classes: those that wait, the oldest on top, and those that were answered lately. */
export async function questionsPage(request: FastifyRequest, refused?: Refused) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const say = sayTo(viewer)
  // first, so that what comes in meanwhile is told afterwards
  const version = await versionOfTalk(db)
  const [open, answered] = [await listOpen(db, viewer), await listAnswered(db, viewer)]
  const bakeIds = [...new Set([...open, ...answered].map(({ bakeId }) => bakeId))]
  const comments = bakeIds.length ? await listComments(db, bakeIds) : []
  const shown = ({ content, ...question }: Question) => {
    const key = keyOf(question)
    const ofBake = comments.filter(({ bakeId }) => bakeId === question.bakeId)
    // none of them is taken back from here
    const threads = threadsOf(ofBake, { viewer, stages: content.stages, teaches: false })
    return {
      ...question,
      key,
      stages: content.stages,
      stageName: content.stages.find((stage) => stage.key === question.stageKey)?.name ?? "",
      said: threads.find((thread) => thread.key === key)?.said ?? [],
      form: refused?.id === question.id ? refused.form : blank,
    }
  }
  return {
    live: { page: "/questions", version },
    open: open.map(shown),
    answered: answered.map(shown),
    now: new Date(),
    nameOf,
    shownReading: (reading: Reading) => shownReading(reading, say),
    newEntryId: () => randomUUID(),
  }
}
