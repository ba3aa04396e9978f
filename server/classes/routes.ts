import type { FastifyInstance, FastifyRequest } from "fastify"
import { listBakeDays } from "../bake-days/queries.ts"
import { findKitchen } from "../kitchens/queries.ts"
import { listReviewsOut } from "../reviews/queries.ts"
import { idOf, signedIn, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { zones } from "../web/zones.ts"
import { instructorsOf, itself, membersOf, roleIn, teachers, teachesSomewhere } from "./access.ts"
import { allergenListOf } from "./allergen-list.ts"
import { classForm, nameForm, newClassForm } from "./forms.ts"
import {
  changeClass,
  findClass,
  findMember,
  leave,
  listClasses,
  listPeople,
  openClass,
  renameMember,
  teachesAlone,
} from "./queries.ts"

export default async function classes(app: FastifyInstance) {
  app.get("/classes", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const [classes, teaches] = [await listClasses(app.db, viewer), await teachesSomewhere(app.db, viewer)]
    return reply.view("classes/index", { classes, teaches })
  })

  app.get("/classes/new", { config: { access: teachers } }, async (request, reply) => {
    const { zone, signInName } = viewerOf(request)
    const form = { typed: { zone, allergenList: allergenListOf(zone), shownName: signInName }, errors: {} }
    return reply.view("classes/new", { form, zones })
  })

  app.post("/classes", { config: { access: teachers } }, async (request, reply) => {
    const { values, form } = readForm(newClassForm, request.body)
    if (!values) return reply.code(422).view("classes/new", { form, zones })
    const opened = { allergenList: allergenListOf(values.zone), ...values }
    return reply.redirect(`/classes/${await openClass(app.db, viewerOf(request), opened)}`, 303)
  })

  app.get("/classes/:id", { config: { access: membersOf(itself) } }, async (request, reply) => {
    return reply.view("classes/show", await classPage(app, request))
  })

  app.get("/classes/:id/edit", { config: { access: instructorsOf(itself) } }, async (request, reply) => {
    const group = found(await findClass(app.db, idOf(request)))
    return reply.view("classes/edit", { group, form: { typed: group, errors: {} }, zones })
  })

  app.post("/classes/:id", { config: { access: instructorsOf(itself) } }, async (request, reply) => {
    const group = found(await findClass(app.db, idOf(request)))
    const { values, form } = readForm(classForm, request.body)
    if (!values) return reply.code(422).view("classes/edit", { group, form, zones })
    await changeClass(app.db, group.id, values)
    return reply.redirect(`/classes/${group.id}`, 303)
  })

  app.post("/classes/:id/name", { config: { access: membersOf(itself) } }, async (request, reply) => {
    const { values, form } = readForm(nameForm, request.body)
    if (!values) return reply.code(422).view("classes/show", await classPage(app, request, form))
    if (!(await renameMember(app.db, idOf(request), viewerOf(request).id, values.shownName))) {
      const taken = refuse(form, "shownName", "Somebody in the class already has that name.")
      return reply.code(422).view("classes/show", await classPage(app, request, taken))
    }
    return reply.redirect(`/classes/${idOf(request)}`, 303)
  })

  app.post("/classes/:id/leaving", { config: { access: membersOf(itself) } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const me = found(await findMember(app.db, idOf(request), viewer.id))
    if (me.role === "instructor" && (await teachesAlone(app.db, idOf(request), viewer.id))) throw problem(403)
    await leave(app.db, idOf(request), viewer.id)
    return reply.redirect("/classes", 303)
  })
}

async function classPage(app: FastifyInstance, request: FastifyRequest, form: Form = blank) {
  const [viewer, id] = [viewerOf(request), idOf(request)]
  const group = found(await findClass(app.db, id))
  const people = await listPeople(app.db, id)
  const me = people.find((person) => person.userId === viewer.id)
  return {
    group,
    people,
    me: me ?? null,
    role: await roleIn(app.db, viewer, id),
    bakeDays: await listBakeDays(app.db, { classId: id }),
    reviews: await listReviewsOut(app.db, { classId: id }),
    kitchenUnknown: Object.keys(await findKitchen(app.db, viewer.id)).length === 0,
    form: form === blank ? { typed: { shownName: me?.shownName ?? "" }, errors: {} } : form,
  }
}
