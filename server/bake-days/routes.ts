import type { FastifyInstance, FastifyRequest } from "fastify"
import { allergiesAhead, allergiesOnBakeDay } from "../allergies/page.ts"
import { instructorsOf, membersOf, roleIn, teachers } from "../classes/access.ts"
import { listPeople, listTaught } from "../classes/queries.ts"
import { countBack, type PlannedStage, type Stage } from "../dough/schedule.ts"
import { recipeDataOf } from "../exchange/recipe-data.ts"
import { notesFor } from "../follow-up/notes.ts"
import { readable } from "../formulas/page.ts"
import { findRevision, listPublished, listStagePictures } from "../formulas/queries.ts"
import { benchesOf } from "../live/day.ts"
import { findOwnDay } from "../plans/own-day.ts"
import { listReviewsOut } from "../reviews/queries.ts"
import type { Viewer } from "../web/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { clockTime, dayOf } from "../web/zones.ts"
import { bakeDayForm } from "./forms.ts"
import {
  addBakeDay,
  type BakeDay,
  changeBakeDay,
  classOfBakeDay,
  findBakeDay,
  listBakesBy,
  type NewBakeDay,
  removeBakeDay,
} from "./queries.ts"
import { windowNow } from "./window.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }
const instructors = { config: { access: instructorsOf(classOfBakeDay) } }

export default async function bakeDays(app: FastifyInstance) {
  app.get("/bake-days/new", { config: { access: teachers } }, async (request, reply) => {
    return reply.view(
      "bake-days/new",
      await formPage(app, request, { typed: await firstGuess(app, request), errors: {} }),
    )
  })

  app.post("/bake-days", { config: { access: teachers } }, async (request, reply) => {
    if (looks(request)) return reply.view("bake-days/new", await formPage(app, request, asTypedIn(request)))
    const { values, form } = await readBakeDay(app, viewerOf(request), request.body)
    if (!values) return reply.code(422).view("bake-days/new", await formPage(app, request, form))
    return reply.redirect(`/bake-days/${await addBakeDay(app.db, values)}`, 303)
  })

  app.get("/bake-days/:id", members, async (request, reply) => {
    return reply.view("bake-days/show", await bakeDayPage(app, request))
  })

  app.get("/bake-days/:id/edit", instructors, async (request, reply) => {
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    const form = { typed: asTyped(bakeDay, viewerOf(request)), errors: {} }
    return reply.view("bake-days/edit", { bakeDay, ...(await formPage(app, request, form, bakeDay)) })
  })

  app.post("/bake-days/:id", instructors, async (request, reply) => {
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    if (looks(request)) {
      const page = await formPage(app, request, asTypedIn(request), bakeDay)
      return reply.view("bake-days/edit", { bakeDay, ...page })
    }
    const body = { ...(request.body as object), classId: String(bakeDay.classId) }
    const { values, form } = await readBakeDay(app, viewerOf(request), body, bakeDay)
    if (!values)
      return reply.code(422).view("bake-days/edit", { bakeDay, ...(await formPage(app, request, form, bakeDay)) })
    await changeBakeDay(app.db, bakeDay.id, values)
    return reply.redirect(`/bake-days/${bakeDay.id}`, 303)
  })

  app.post("/bake-days/:id/removal", instructors, async (request, reply) => {
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    if (await removeBakeDay(app.db, bakeDay.id)) return reply.redirect(`/classes/${bakeDay.classId}`, 303)
    const form = refuse(blank, "removal", "Somebody has already baked; a bake day with bakes stays.")
    return reply.code(422).view("bake-days/edit", {
      bakeDay,
      ...(await formPage(app, request, { ...form, typed: asTyped(bakeDay, viewerOf(request)) }, bakeDay)),
    })
  })
}

/** The form only asks whom in the class the chosen formula does not suit; nothing is kept. */
const looks = ({ body }: FastifyRequest) => (body as { look?: unknown } | undefined)?.look !== undefined
const asTypedIn = ({ body }: FastifyRequest): Form => ({ typed: body as Form["typed"], errors: {} })

/** The form, and whether this person may give that formula to that class. */
async function readBakeDay(
  app: FastifyInstance,
  viewer: Viewer,
  body: unknown,
  present?: BakeDay,
): Promise<{ values?: NewBakeDay; form: Form }> {
  const { values, form } = readForm(bakeDayForm(viewer.temperatureUnit), body)
  if (!values) return { form }
  if ((await roleIn(app.db, viewer, values.classId)) !== "instructor")
    return { form: refuse(form, "classId", "Choose a class that you teach.") }
  const kept = values.revisionId === present?.revisionId
  const own = (await findRevision(app.db, values.revisionId))?.ownerId === viewer.id
  if (!kept && !own && !viewer.isOwner)
    return { form: refuse(form, "revisionId", "Choose a formula of your own that you have published.") }
  return { values, form }
}

/** What a new bake day starts from: the class or revision of the link, or another bake day to copy. */
async function firstGuess(app: FastifyInstance, request: FastifyRequest) {
  const viewer = viewerOf(request)
  const query = request.query as { class?: string; revision?: string; copy?: string }
  const original = /^[1-9]\d{0,8}$/.test(query.copy ?? "") ? await findBakeDay(app.db, Number(query.copy)) : undefined
  if (original && (await roleIn(app.db, viewer, original.classId)) === "instructor") {
    return { ...asTyped(original, viewer), classId: query.class ?? "", opensOn: "", closesOn: "" }
  }
  return { classId: query.class ?? "", revisionId: query.revision ?? "", onTableTime: "18:00" }
}

function asTyped(bakeDay: BakeDay, viewer: Viewer) {
  const { targetDoughC, targetRise } = bakeDay
  const inUnit = (c: number) => (viewer.temperatureUnit === "F" ? (c * 9) / 5 + 32 : c)
  return {
    ...bakeDay,
    targetDoughC: targetDoughC === null ? "" : `${Number(inUnit(targetDoughC).toFixed(1))} °${viewer.temperatureUnit}`,
    targetRise: targetRise === null ? "" : `${Math.round(targetRise * 100)} %`,
  }
}

async function formPage(app: FastifyInstance, request: FastifyRequest, form: Form, present?: BakeDay) {
  const viewer = viewerOf(request)
  const published = await listPublished(app.db, viewer)
  const kept = present && !published.some((row) => row.revisionId === present.revisionId)
  const revisions = kept
    ? [{ revisionId: present.revisionId, title: present.formulaTitle, number: present.revisionNumber }, ...published]
    : published
  const chosen = present ? { ...form.typed, classId: present.classId } : form.typed
  const ahead = (await allergiesAhead(app.db, viewer, chosen)) ?? null
  return { form, classes: await listTaught(app.db, viewer), revisions, ahead }
}

async function bakeDayPage(app: FastifyInstance, request: FastifyRequest) {
  const viewer = viewerOf(request)
  const ownDay = found(await findOwnDay(app.db, viewer, idOf(request), new Date()))
  const { bakeDay, kept, onTableAt, variant, answer } = ownDay
  const role = await roleIn(app.db, viewer, bakeDay.classId)
  const made = readable(bakeDay.content, {
    ...{ own: bakeDay.ownIngredients, variant, massUnit: viewer.massUnit, list: bakeDay.allergenList },
    ...(answer.plan ? { plan: answer.plan } : {}),
  })
  const typed = { day: dayOf(onTableAt, viewer.zone), time: clockTime(onTableAt, viewer.zone), variant }
  const benches = await benchesOf(app.db, bakeDay, viewer, role ?? "student")
  const revision = found(await findRevision(app.db, bakeDay.revisionId))
  return {
    benches,
    recipeData: recipeDataOf(request, revision, `/revisions/${revision.id}`),
    live: { page: `/bake-days/${bakeDay.id}`, version: benches.version },
    now: new Date(),
    bakeDay,
    ...{ kept, onTableAt, fits: answer.fits },
    // where no day can be reckoned, the formula's own times still say something
    schedule: asWritten(answer.plan?.stages, made.content.stages) ?? countBack(made.content.stages, onTableAt),
    kitchenUnknown: Object.keys(ownDay.kitchen).length === 0,
    ...made,
    allergies: await allergiesOnBakeDay(app.db, viewer, { bakeDay, ...(role ? { role } : {}) }, made.content),
    pictures: await listStagePictures(app.db, bakeDay.formulaId),
    role,
    reviews: await listReviewsOut(app.db, { bakeDayId: bakeDay.id }),
    reminders: await notesFor(app.db, viewer, bakeDay.id),
    when: windowNow(bakeDay, new Date()),
    bakes: await listBakesBy(app.db, bakeDay.id, viewer.id),
    people: role === "student" ? [] : await listPeople(app.db, bakeDay.classId),
    form: { typed, errors: {} },
  }
}

/** The times of an own day beside what the formula itself says of each stage. */
const asWritten = (planned: PlannedStage[] | undefined, stages: Stage[]) =>
  planned?.map((one) => ({ ...one, stage: stages.find(({ key }) => key === one.stage.key) ?? one.stage }))
