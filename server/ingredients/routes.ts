import type { FastifyInstance, FastifyRequest } from "fastify"
import { type ClassOf, instructorsOf, itself, membersOf, roleIn } from "../classes/access.ts"
import { findClass } from "../classes/queries.ts"
import { euFourteen, usNine } from "../dough/ingredients/allergen-lists.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import { ingredientKinds } from "../schema.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { boxOf, contents, ingredientForm, typedIngredient } from "./forms.ts"
import { kinds } from "./kinds.ts"
import {
  addClassIngredient,
  changeClassIngredient,
  findClassIngredient,
  listClassIngredients,
  removeClassIngredient,
} from "./queries.ts"

const ofIngredient: ClassOf = async (db, id) => (await findClassIngredient(db, id))?.classId
const members = { config: { access: membersOf(itself) } }
const teaching = { config: { access: instructorsOf(itself) } }
const itsTeachers = { config: { access: instructorsOf(ofIngredient) } }
const taken = "The list has an ingredient of that name already."

/** The ingredients a class adds to the catalogue: read by its members, kept by its instructors. */
export default async function ingredients(app: FastifyInstance) {
  app.get("/classes/:id/ingredients", members, async (request, reply) =>
    reply.view("ingredients/index", await listPage(app, request)),
  )

  app.post("/classes/:id/ingredients", teaching, async (request, reply) => {
    const { values, form } = readForm(ingredientForm, request.body)
    if (!values) return reply.code(422).view("ingredients/index", await listPage(app, request, form))
    if (!(await addClassIngredient(app.db, idOf(request), values))) {
      return reply.code(422).view("ingredients/index", await listPage(app, request, refuse(form, "name", taken)))
    }
    return reply.redirect(`/classes/${idOf(request)}/ingredients`, 303)
  })

  app.get("/ingredients/:id", itsTeachers, async (request, reply) => {
    const known = found(await findClassIngredient(app.db, idOf(request)))
    return reply.view("ingredients/edit", await editPage(app, known, { typed: typedIngredient(known), errors: {} }))
  })

  app.post("/ingredients/:id", itsTeachers, async (request, reply) => {
    const known = found(await findClassIngredient(app.db, idOf(request)))
    const { values, form } = readForm(ingredientForm, request.body)
    if (!values) return reply.code(422).view("ingredients/edit", await editPage(app, known, form))
    if (!(await changeClassIngredient(app.db, known, values))) {
      return reply.code(422).view("ingredients/edit", await editPage(app, known, refuse(form, "name", taken)))
    }
    return reply.redirect(`/classes/${known.classId}/ingredients`, 303)
  })

  app.post("/ingredients/:id/removal", itsTeachers, async (request, reply) => {
    const known = found(await findClassIngredient(app.db, idOf(request)))
    await removeClassIngredient(app.db, known.id)
    return reply.redirect(`/classes/${known.classId}/ingredients`, 303)
  })
}

const fields = {
  kindOptions: [["", "choose"], ...ingredientKinds.map((kind) => [kind, kinds[kind].words])],
  contents,
  allergenLists: [
    { list: "us", title: "On the US list of nine", allergens: usNine },
    { list: "eu", title: "On the EU and UK list of fourteen", allergens: euFourteen },
  ],
  boxOf,
}

async function listPage(app: FastifyInstance, request: FastifyRequest, form: Form = blank) {
  const group = found(await findClass(app.db, idOf(request)))
  const listed = (await listClassIngredients(app.db, group.id)).map((known) => ({
    ...known,
    kindWords: kinds[known.kind].short,
    insteadOf: findIngredient(known.name)?.name ?? null,
  }))
  const teaches = (await roleIn(app.db, viewerOf(request), group.id)) === "instructor"
  return { ...fields, group, listed, teaches, form }
}

async function editPage(app: FastifyInstance, known: { id: number; name: string; classId: number }, form: Form) {
  const group = found(await findClass(app.db, known.classId))
  return { ...fields, group, known, form }
}
