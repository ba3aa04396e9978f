import type { FastifyInstance, FastifyRequest } from "fastify"
import { linkDays, makeLink } from "../accounts/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { instructorsOf, itself, teachesSomewhere } from "./access.ts"
import { roleForm } from "./forms.ts"
import { changeRole, findClass, findMember, leave, listPeople, teachesAlone } from "./queries.ts"

const teaching = { config: { access: instructorsOf(itself) } }

/** What an instructor does about the people of a class. */
export default async function people(app: FastifyInstance) {
  app.get("/classes/:id/people", teaching, async (request, reply) =>
    reply.view("classes/people", await peoplePage(app, request)),
  )

  app.post("/classes/:id/people/:person/role", teaching, async (request, reply) => {
    const person = await personOf(app, request)
    const { values, form } = readForm(roleForm, request.body)
    if (!values) return reply.code(422).view("classes/people", await peoplePage(app, request, form))
    if (values.role !== "instructor" && (await isLastInstructor(app, request, person))) {
      const last = refuse(form, "role", "A class keeps at least one instructor.")
      return reply.code(422).view("classes/people", await peoplePage(app, request, last))
    }
    await changeRole(app.db, idOf(request), person.userId, values.role)
    return reply.redirect(`/classes/${idOf(request)}/people`, 303)
  })

  app.post("/classes/:id/people/:person/removal", teaching, async (request, reply) => {
    const person = await personOf(app, request)
    if (await isLastInstructor(app, request, person)) {
      const last = refuse(blank, "role", "A class keeps at least one instructor.")
      return reply.code(422).view("classes/people", await peoplePage(app, request, last))
    }
    await leave(app.db, idOf(request), person.userId)
    return reply.redirect(`/classes/${idOf(request)}/people`, 303)
  })

  app.post("/classes/:id/people/:person/password-link", teaching, async (request, reply) => {
    const person = await personOf(app, request)
    // a link is the account: whoever teaches cannot take over the owner or another teacher with it
    const mighty = await teachesSomewhere(app.db, { id: person.userId, isOwner: person.isOwner })
    if (mighty && !viewerOf(request).isOwner) throw problem(403)
    const token = await makeLink(app.db, { purpose: "password", userId: person.userId }, linkDays)
    const link = { name: person.shownName, url: `${publicUrl(request)}/new-password/${token}`, days: linkDays }
    return reply.view("classes/people", { ...(await peoplePage(app, request)), link })
  })
}

async function personOf(app: FastifyInstance, request: FastifyRequest) {
  const { person } = request.params as { person: string }
  return found(await findMember(app.db, idOf(request), Number(person) || 0))
}

async function isLastInstructor(
  app: FastifyInstance,
  request: FastifyRequest,
  person: { userId: number; role: string },
) {
  return person.role === "instructor" && (await teachesAlone(app.db, idOf(request), person.userId))
}

async function peoplePage(app: FastifyInstance, request: FastifyRequest, form: Form = blank) {
  const group = found(await findClass(app.db, idOf(request)))
  return { group, people: await listPeople(app.db, group.id), form, link: null }
}
