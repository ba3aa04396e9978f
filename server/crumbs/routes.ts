import type { FastifyInstance } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { sessionIdOf } from "../accounts/sessions.ts"
import { touchBake } from "../bakes/entries.ts"
import { itself, staffOf } from "../classes/access.ts"
import { findClass } from "../classes/queries.ts"
import { eventsOf } from "../live/stream.ts"
import { askAgain } from "../measuring/asking.ts"
import { changePhoto } from "../photos/queries.ts"
import { idOf, signedIn, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { sendEvents } from "../web/event-stream.ts"
import { readForm } from "../web/forms.ts"
import { itsCounters, itsMarkers, itsReaders, whoCounted } from "./access.ts"
import { classTruth } from "./class-truth.ts"
import { areaForm, countForm, rulerForm } from "./forms.ts"
import { liveCrumb } from "./live.ts"
import { crumbIn, crumbPage } from "./page.ts"
import { addCount, type Crumb, takeBackCount } from "./queries.ts"
import { chosenIn, fewest, listOthers, listSeen, most, sideBySide } from "./side-by-side.ts"

const readers = { config: { access: itsReaders } }
const markers = { config: { access: itsMarkers } }

export default async function crumbs(app: FastifyInstance) {
  app.get("/photos/:photo/crumb", readers, async (request, reply) =>
    reply.view("crumbs/show", await crumbPage(request)),
  )

  app.get("/photos/:photo/crumb/live", { ...readers, exposeHeadRoute: false }, async (request, reply) => {
    const page = await liveCrumb(request)
    const { since } = request.query as { since?: string | string[] }
    const drawnFrom = String(request.headers["last-event-id"] ?? [since ?? ""].flat().at(-1))
    const follower = { viewer: viewerOf(request), sessionId: sessionIdOf(request) }
    return sendEvents(reply, (signal) => eventsOf(page, { hub: app.hub, follower, since: drawnFrom, signal }))
  })

  app.get("/photos/:photo/crumb/even", readers, async (request, reply) => {
    const { photo, measurement } = await crumbIn(request)
    const tag = `"${photo.id}-${measurement?.doneAt?.getTime()}"`
    reply.header("cache-control", "private, no-cache").header("etag", tag)
    if (request.headers["if-none-match"]?.includes(tag)) return reply.code(304).send()
    const picture = found(await app.photoStore.open(photo.id, "even"))
    return reply.type("image/jpeg").header("x-content-type-options", "nosniff").send(picture)
  })

  app.post("/photos/:photo/crumb/area", markers, async (request, reply) => {
    const { photo } = await crumbIn(request)
    const { values, form } = readForm(areaForm, request.body)
    if (!values) return reply.code(422).view("crumbs/show", await crumbPage(request, { name: "area", form }))
    await change(photo, values)
    return reply.redirect(`/photos/${photo.id}/crumb`, 303)
  })

  app.post("/photos/:photo/crumb/ruler", markers, async (request, reply) => {
    const { photo } = await crumbIn(request)
    const { values, form } = readForm(rulerForm(photo), request.body)
    if (!values) return reply.code(422).view("crumbs/show", await crumbPage(request, { name: "ruler", form }))
    await change(photo, values)
    return reply.redirect(`/photos/${photo.id}/crumb`, 303)
  })

  app.post("/photos/:photo/crumb/again", markers, async (request, reply) => {
    const { photo } = await crumbIn(request)
    await app.db.transaction(async (tx) => {
      await askAgain(tx, photo.id)
      await touchBake(tx, photo.bakeId!)
    })
    return reply.redirect(`/photos/${photo.id}/crumb`, 303)
  })

  /** With a mark changed the crumb is measured anew, and whoever follows the bake hears of it. */
  function change(photo: Crumb["photo"], values: Parameters<typeof changePhoto>[2]) {
    return app.db.transaction(async (tx) => {
      await changePhoto(tx, photo.id, values)
      await touchBake(tx, photo.bakeId!)
    })
  }

  app.post("/photos/:photo/crumb/counts", { config: { access: itsCounters } }, async (request, reply) => {
    const { photo } = await crumbIn(request)
    const { values, form } = readForm(countForm, request.body)
    if (!values) return reply.code(422).view("crumbs/show", await crumbPage(request, { name: "count", form }))
    await addCount(app.db, { photoId: photo.id, userId: viewerOf(request).id, ...values })
    return reply.redirect(`/photos/${photo.id}/crumb#counts`, 303)
  })

  app.post("/hand-counts/:id/removal", { config: { access: whoCounted } }, async (request, reply) => {
    const photoId = found(await takeBackCount(app.db, idOf(request)))
    return reply.redirect(`/photos/${photoId}/crumb#counts`, 303)
  })

  app.get("/classes/:id/crumb-truth", { config: { access: staffOf(itself) } }, async (request, reply) => {
    const group = found(await findClass(app.db, idOf(request)))
    return reply.view("crumbs/class-truth", { group, ...(await classTruth(app.db, group.id)) })
  })

  app.get("/crumbs", { config: { access: signedIn } }, async (request, reply) => {
    const ids = chosenIn(request.query)
    const seen = await listSeen(request, ids)
    const problem = problemOf(ids.length, seen.length)
    if (problem) reply.code(problem.code)
    const page =
      problem?.code === 404 ? { crumbs: [], others: [] } : { crumbs: seen, others: await listOthers(request, seen) }
    const shown = problem ? null : sideBySide(seen, sayTo(viewerOf(request)))
    return reply.view("crumbs/side-by-side", { ...page, problem: problem?.words ?? "", shown, most })
  })
}

function problemOf(asked: number, seen: number) {
  if (seen < Math.min(asked, most))
    return { code: 404, words: "One of these photos is not there, or it is not shared with you." }
  if (asked > most) return { code: 422, words: `${asked} crumbs are chosen; two to six fit side by side.` }
  if (asked < fewest)
    return { code: asked === 0 ? 422 : 200, words: "Choose two to six crumbs to lay beside each other." }
  return undefined
}
