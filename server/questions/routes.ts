import type { FastifyInstance, FastifyRequest } from "fastify"
import { mayDoWith, readersOf } from "../bakes/access.ts"
import { keep, saidOtherwise } from "../bakes/entries.ts"
import { benchPage } from "../bakes/page.ts"
import { findBake, listPhotos } from "../bakes/queries.ts"
import { itself } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { pressedAt } from "../web/sender.ts"
import { itsAnswerers, itsTakersBack, staff } from "./access.ts"
import { answerForm, commentForm } from "./forms.ts"
import { stageIn } from "./mentions.ts"
import { questionsPage } from "./page.ts"
import { addComment, countOpen, findComment, findQuestion, hasReading, listComments, takeBack } from "./queries.ts"
import { type About, keyOf } from "./threads.ts"

/** "Does this look right?", and what is said about it while the dough can still be saved. */
export default async function questions(app: FastifyInstance) {
  app.post("/bakes/:id/comments", { config: { access: readersOf(itself) } }, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { id: userId } = viewerOf(request)
    const { stages } = bake.content
    const { values, form } = readForm(commentForm(stages.map(({ key }) => key)), request.body)
    const refused = async (form: Form) =>
      reply
        .code(422)
        .view("bakes/show", await benchPage(request, { name: `${form.typed.says}-${form.typed.about}`, form }))
    if (!values) return refused(form)
    const about = await thingIn(request, values.about)
    if (!about) return refused(refuse(form, "words", "What you speak of is not there any more."))
    const asks = values.says === "asks"
    const settles = values.says === "settles"
    if (asks && userId !== bake.userId)
      return refused(refuse(form, "words", "Only the baker asks here; say it in words."))

    const toThread = () => reply.redirect(`/bakes/${bake.id}#thread-${keyOf(about)}`, 303)
    if (settles && !(await waits(request, about))) return toThread()
    const words = settles ? "" : values.words
    const stageKey = values.stageKey || stageIn(words, stages)
    const comment = { ...about, bakeId: bake.id, userId, words, stageKey, asks, madeAt: pressedAt(request) }
    const arrival = await keep(request, bake.id, (tx) => addComment(tx, comment))
    if (arrival === "otherwise") return refused(refuse(form, "words", saidOtherwise))
    return toThread()
  })

  app.post("/comments/:id/removal", { config: { access: itsTakersBack } }, async (request, reply) => {
    const comment = found(await findComment(app.db, idOf(request)))
    await keep(request, comment.bakeId, (tx) => takeBack(tx, comment.id))
    return reply.redirect(`/bakes/${comment.bakeId}#thread-${keyOf(comment)}`, 303)
  })

  app.get("/questions", { config: { access: staff } }, async (request, reply) => {
    return reply.header("cache-control", "no-store").view("questions/index", await questionsPage(request))
  })

  // a fragment of its own, so that any page of the staff can keep its number up to date
  app.get("/questions/count", { config: { access: staff } }, async (request, reply) => {
    const openQuestions = await countOpen(app.db, viewerOf(request))
    return reply.header("cache-control", "no-store").view("questions/_count", { openQuestions })
  })

  app.post("/questions/:id/answers", { config: { access: itsAnswerers } }, async (request, reply) => {
    const { id, bakeId, photoId, readingId, content } = found(await findQuestion(app.db, idOf(request)))
    const { values, form } = readForm(answerForm, request.body)
    const refused = async (form: Form) =>
      reply.code(422).view("questions/index", await questionsPage(request, { id, form }))
    if (!values) return refused(form)
    const said = { words: values.words, stageKey: stageIn(values.words, content.stages) }
    const comment = { ...said, bakeId, photoId, readingId, userId: viewerOf(request).id }
    const arrival = await keep(request, bakeId, (tx) => addComment(tx, comment))
    if (arrival === "otherwise") return refused(refuse(form, "words", saidOtherwise))
    return reply.redirect("/questions", 303)
  })
}

/** What a comment is about, by its key; undefined when this bake has no such thing, or hides it from who speaks. */
async function thingIn(request: FastifyRequest, key: string): Promise<About | undefined> {
  if (key === "bake") return {}
  const { db } = request.server
  const bakeId = idOf(request)
  const reading = /^reading-([1-9]\d{0,8})$/.exec(key)
  if (reading) return (await hasReading(db, bakeId, Number(reading[1]))) ? { readingId: Number(reading[1]) } : undefined
  const photo = (await listPhotos(db, bakeId)).find(({ id }) => key === `photo-${id}`)
  const may = await mayDoWith(db, viewerOf(request), bakeId)
  return photo && (photo.forClass || may !== "read") ? { photoId: photo.id } : undefined
}

/** Whether who sends this has a question there that waits. */
async function waits(request: FastifyRequest, about: About) {
  const comments = await listComments(request.server.db, [idOf(request)])
  return comments.some(
    (comment) => comment.waits && comment.userId === viewerOf(request).id && keyOf(comment) === keyOf(about),
  )
}
