import type { FastifyInstance, FastifyRequest } from "fastify"
import { classOfBakeDay, findBakeDay } from "../bake-days/queries.ts"
import { instructorsOf, membersOf, roleIn } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { readForm } from "../web/forms.ts"
import { itsTakersBack } from "./access.ts"
import { writing } from "./editing.ts"
import { commentForm } from "./forms.ts"
import { previewPage, readingPage } from "./page.ts"
import { addReviewComment, findReview, findReviewComment, takeBackReviewComment } from "./queries.ts"
import { recapPage } from "./recap.ts"
import { screensOf } from "./screens.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }
const instructors = { config: { access: instructorsOf(classOfBakeDay) } }

export default async function reviews(app: FastifyInstance) {
  app.get("/bake-days/:id/review", members, async (request, reply) => {
    const page = await readingPage(request)
    return page ? reply.view("reviews/show", page) : reply.view("reviews/none", await nothingYet(request))
  })

  app.get("/bake-days/:id/review/editions/:edition", members, async (request, reply) => {
    return reply.view("reviews/show", found(await readingPage(request, placeIn(request, "edition"))))
  })

  app.get("/bake-days/:id/review/screens/:screen", members, async (request, reply) => {
    const page = found(await readingPage(request))
    const screens = screensOf(page.shown)
    const at = placeIn(request, "screen")
    return reply.view("reviews/screen", { ...page, at, count: screens.length, screen: found(screens[at - 1]) })
  })

  app.get("/bake-days/:id/recap", members, async (request, reply) => {
    return reply.view("reviews/recap", await recapPage(request))
  })

  app.get("/bake-days/:id/review/draft", instructors, async (request, reply) => {
    return reply.view("reviews/show", await previewPage(request))
  })

  app.post("/bake-days/:id/review/comments", members, async (request, reply) => {
    const page = found(await readingPage(request))
    const { values, form } = readForm(commentForm, request.body)
    if (!values) return reply.code(422).view("reviews/show", { ...page, form })
    const { reviewId } = page.edition
    const id = await addReviewComment(app.db, { reviewId, userId: viewerOf(request).id, words: values.words })
    return reply.redirect(`/bake-days/${page.bakeDay.id}/review#comment-${id}`, 303)
  })

  app.post("/review-comments/:id/removal", { config: { access: itsTakersBack } }, async (request, reply) => {
    const comment = found(await findReviewComment(app.db, idOf(request)))
    await takeBackReviewComment(app.db, comment.id)
    return reply.redirect(`/bake-days/${comment.bakeDayId}/review#comment-${comment.id}`, 303)
  })

  app.register(writing)
}

async function nothingYet(request: FastifyRequest) {
  const { db } = request.server
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const teaches = (await roleIn(db, viewerOf(request), bakeDay.classId)) === "instructor"
  return { bakeDay, teaches, begun: teaches && (await findReview(db, bakeDay.id)) !== undefined }
}

/** The whole number from 1 in an address; what is none leads nowhere. */
function placeIn(request: FastifyRequest, name: string): number {
  const text = (request.params as Record<string, string>)[name] ?? ""
  return found(/^[1-9]\d{0,5}$/.test(text) ? Number(text) : undefined)
}
