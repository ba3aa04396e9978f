import type { FastifyRequest } from "fastify"
import { type BakeDay, findBakeDay } from "../bake-days/queries.ts"
import { roleIn } from "../classes/access.ts"
import { listPeople } from "../classes/queries.ts"
import { idOf, type Viewer, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form } from "../web/forms.ts"
import { layForClass } from "./class-view.ts"
import type { EditionContent } from "./content.ts"
import { keep } from "./keeping.ts"
import { plotsFor } from "./plots.ts"
import { findEdition, findReview, listEditions, listReviewComments } from "./queries.ts"
import { showEdition } from "./shown.ts"

/** The newest edition, or that of a number, as its readers see it; undefined while nothing is published. */
export async function readingPage(request: FastifyRequest, number?: number, form: Form = blank) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const role = await roleIn(db, viewer, bakeDay.classId)
  const edition = await findEdition(db, bakeDay.id, number)
  if (!edition) return undefined
  const history = await listEditions(db, bakeDay.id)
  return {
    ...(await shownTo(request, edition.content, bakeDay)),
    ...{ bakeDay, role, history, form, preview: false },
    edition: history.find((one) => one.number === edition.number)!,
    newest: history[0]!.number,
    comments: (await listReviewComments(db, edition.reviewId)).map((comment) => ({
      ...comment,
      own: comment.userId === viewer.id,
      mayTakeBack: comment.removedAt === null && (comment.userId === viewer.id || role !== "student"),
    })),
  }
}

/** The draft as it would be read if it were published now. */
export async function previewPage(request: FastifyRequest) {
  const { db } = request.server
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const { draft, madeAt } = found(await findReview(db, bakeDay.id))
  const laid = await layForClass(db, bakeDay, new Date())
  const content = keep(draft, { laid, plots: plotsFor(bakeDay, laid) }, bakeDay)
  return {
    ...(await shownTo(request, content, bakeDay)),
    ...{ bakeDay, role: "instructor", history: [], form: blank, preview: true, newest: 0, comments: [] },
    edition: { number: 0, publishedAt: madeAt, by: "", whatChanged: "" },
  }
}

/** What is for all, and what is for this person: words to themselves, or, for the staff, the words to each. */
async function shownTo(request: FastifyRequest, content: EditionContent, bakeDay: BakeDay) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const staff = (await roleIn(db, viewer, bakeDay.classId)) !== "student"
  const { gone, ...shown } = await showEdition(db, content, viewer)
  return {
    shown,
    forYou: content.forStudents.find(({ userId }) => userId === viewer.id)?.words ?? "",
    forOthers: staff ? await named(request, bakeDay.classId, content, viewer) : [],
    gone: staff ? gone : [],
  }
}

async function named(
  { server: { db } }: FastifyRequest,
  classId: number,
  { forStudents }: EditionContent,
  viewer: Viewer,
) {
  const people = forStudents.length ? await listPeople(db, classId) : []
  return forStudents
    .filter(({ userId }) => userId !== viewer.id)
    .map(({ userId, words }) => ({
      words,
      name: people.find((person) => person.userId === userId)?.shownName ?? "Somebody who has left the class",
    }))
}
