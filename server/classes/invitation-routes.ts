import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import QRCode from "qrcode"
import { hashPassword } from "../accounts/passwords.ts"
import { signIn } from "../accounts/sessions.ts"
import { allergiesIn, allergyLabels } from "../allergies/forms.ts"
import { anyone, idOf, signedIn, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { zones } from "../web/zones.ts"
import { type ClassOf, instructorsOf, itself } from "./access.ts"
import { joinAsNewForm, joinForm, roleForm } from "./forms.ts"
import {
  findClass,
  findInvitation,
  invite,
  join,
  joinAsNew,
  listInvitations,
  openInvitation,
  revokeInvitation,
} from "./queries.ts"

type ByToken = { Params: { token: string } }
const ofInvitation: ClassOf = async (db, id) => (await findInvitation(db, id))?.classId
const taken = {
  shownName: "Somebody in the class already has that name.",
  signInName: "That sign-in name is taken. If it is yours, sign in first and open this link again.",
}

/** Invitations: made, shown and revoked by instructors, opened by those they are given to. */
export default async function invitations(app: FastifyInstance) {
  app.get("/classes/:id/invitations", { config: { access: instructorsOf(itself) } }, async (request, reply) => {
    return reply.view("classes/invitations", await invitationsPage(app, request))
  })

  app.post("/classes/:id/invitations", { config: { access: instructorsOf(itself) } }, async (request, reply) => {
    const { values, form } = readForm(roleForm, request.body)
    if (!values) return reply.code(422).view("classes/invitations", await invitationsPage(app, request, form))
    await invite(app.db, idOf(request), values.role)
    return reply.redirect(`/classes/${idOf(request)}/invitations`, 303)
  })

  app.post(
    "/invitations/:id/revocation",
    { config: { access: instructorsOf(ofInvitation) } },
    async (request, reply) => {
      const invitation = found(await findInvitation(app.db, idOf(request)))
      await revokeInvitation(app.db, invitation.id)
      return reply.redirect(`/classes/${invitation.classId}/invitations`, 303)
    },
  )

  app.get<ByToken>("/join/:token", { config: { access: anyone } }, async (request, reply) => {
    const invitation = found(await openInvitation(app.db, request.params.token))
    return reply.view("classes/join", joinPage(request, invitation))
  })

  app.post<ByToken>("/join/:token", { config: { access: anyone } }, async (request, reply) => {
    const invitation = found(await openInvitation(app.db, request.params.token))
    const { values, form } = readForm(joinAsNewForm, request.body)
    if (!values) return reply.code(422).view("classes/join", joinPage(request, invitation, form))

    const { password, shownName, allergies: _, allergyWords: __, ...account } = values
    const { classId, role } = invitation
    const result = await joinAsNew(
      app.db,
      { ...account, passwordHash: await hashPassword(password) },
      { classId, role, shownName, allergies: allergiesIn(values) },
    )
    if (result.userId === undefined)
      return refuseName(request, reply, invitation, form, result.taken as keyof typeof taken)
    await signIn(app, reply, result.userId)
    return reply.redirect(`/classes/${classId}`, 303)
  })

  app.post<ByToken>("/join/:token/with-my-account", { config: { access: signedIn } }, async (request, reply) => {
    const invitation = found(await openInvitation(app.db, request.params.token))
    const { values, form } = readForm(joinForm, request.body)
    if (!values) return reply.code(422).view("classes/join", joinPage(request, invitation, form))

    const place = { shownName: values.shownName, allergies: allergiesIn(values) }
    const result = await join(app.db, invitation.classId, viewerOf(request).id, invitation.role, place)
    if (result === "taken") return refuseName(request, reply, invitation, form, "shownName")
    return reply.redirect(`/classes/${invitation.classId}`, 303)
  })
}

type Invitation = NonNullable<Awaited<ReturnType<typeof openInvitation>>>

function refuseName(
  request: FastifyRequest,
  reply: FastifyReply,
  invitation: Invitation,
  form: Form,
  field: keyof typeof taken,
) {
  return reply.code(422).view("classes/join", joinPage(request, invitation, refuse(form, field, taken[field])))
}

function joinPage(request: FastifyRequest, invitation: Invitation, form: Form = blank) {
  const { token } = request.params as { token: string }
  return {
    invitation,
    token,
    zones,
    allergyLabels,
    form: form === blank ? { typed: { zone: invitation.zone }, errors: {} } : form,
  }
}

async function invitationsPage(app: FastifyInstance, request: FastifyRequest, form: Form = blank) {
  const group = found(await findClass(app.db, idOf(request)))
  const shown = (await listInvitations(app.db, group.id)).map(async (invitation) => {
    const url = `${publicUrl(request)}/join/${invitation.token}`
    return { ...invitation, url, picture: await QRCode.toDataURL(url, { margin: 2, scale: 6 }) }
  })
  return { group, invitations: await Promise.all(shown), form }
}
