import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { anyone, signedIn, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { zones } from "../web/zones.ts"
import { changePasswordForm, newAccountForm, newPasswordForm, ownPath, preferencesForm, signInForm } from "./forms.ts"
import { hashPassword, isPassword, pretendToCheck } from "./passwords.ts"
import {
  changePassword,
  changePreferences,
  findBySignInName,
  findLink,
  isEmpty,
  makeOwner,
  resetPassword,
} from "./queries.ts"
import { signIn, signOut } from "./sessions.ts"

type ByToken = { Params: { token: string } }

/** Guessing a password: 10 tries in 5 minutes for one name from one address. OWASP Authentication Cheat Sheet, "Login Throttling", asks for a limit and names no number. */
const tenTries = {
  max: 10,
  timeWindow: "5 minutes",
  hook: "preHandler" as const,
  keyGenerator: (request: FastifyRequest) =>
    `${request.ip} ${(request.body as { signInName?: string })?.signInName ?? ""}`,
}

export default async function accounts(app: FastifyInstance) {
  app.get<ByToken>("/setup/:token", { config: { access: anyone } }, async (request, reply) => {
    found(await findLink(app.db, request.params.token, "setup"))
    return reply.view("accounts/setup", { token: request.params.token, form: blank, zones })
  })

  app.post<ByToken>("/setup/:token", { config: { access: anyone } }, async (request, reply) => {
    const { token } = request.params
    found(await findLink(app.db, token, "setup"))
    const { values, form } = readForm(newAccountForm, request.body)
    if (!values) return reply.code(422).view("accounts/setup", { token, form, zones })

    const { password, ...account } = values
    const id = found(await makeOwner(app.db, token, { ...account, passwordHash: await hashPassword(password) }))
    await signIn(app, reply, id)
    return reply.redirect("/", 303)
  })

  app.get("/sign-in", { config: { access: anyone } }, async (request, reply) => {
    const { next = "/" } = request.query as { next?: string }
    if (request.viewer) return reply.redirect(ownPath(next), 303)
    const form = { typed: { next: ownPath(next) }, errors: {} }
    return reply.view("accounts/sign-in", { form, empty: await isEmpty(app.db) })
  })

  app.post("/sign-in", { config: { access: anyone, rateLimit: tenTries } }, async (request, reply) => {
    const { values, form } = readForm(signInForm, request.body)
    if (!values) return refuseSignIn(reply, form)
    const user = await findBySignInName(app.db, values.signInName)
    const right = await (user ? isPassword(user.passwordHash, values.password) : pretendToCheck(values.password))
    if (!user || !right)
      return refuseSignIn(reply, refuse(form, "password", "That name and password do not go together."))

    await signIn(app, reply, user.id)
    return reply.redirect(ownPath(values.next), 303)
  })

  app.post("/sign-out", { config: { access: signedIn } }, async (request, reply) => {
    await signOut(app, request, reply)
    return reply.redirect("/", 303)
  })

  app.get<ByToken>("/new-password/:token", { config: { access: anyone } }, async (request, reply) => {
    found(await findLink(app.db, request.params.token, "password"))
    return reply.view("accounts/new-password", { token: request.params.token, form: blank })
  })

  app.post<ByToken>("/new-password/:token", { config: { access: anyone } }, async (request, reply) => {
    const { token } = request.params
    found(await findLink(app.db, token, "password"))
    const { values, form } = readForm(newPasswordForm, request.body)
    if (!values) return reply.code(422).view("accounts/new-password", { token, form })

    const id = found(await resetPassword(app.db, token, await hashPassword(values.password)))
    await signIn(app, reply, id)
    return reply.redirect("/", 303)
  })

  app.get("/account", { config: { access: signedIn } }, async (request, reply) => {
    return reply.view("accounts/show", accountPage(request))
  })

  app.post("/account/preferences", { config: { access: signedIn } }, async (request, reply) => {
    const { values, form } = readForm(preferencesForm, request.body)
    if (!values) return reply.code(422).view("accounts/show", accountPage(request, { preferences: form }))
    await changePreferences(app.db, viewerOf(request).id, values)
    return reply.redirect("/account", 303)
  })

  app.post("/account/password", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const { values, form } = readForm(changePasswordForm, request.body)
    if (!values) return reply.code(422).view("accounts/show", accountPage(request, { password: form }))
    const user = found(await findBySignInName(app.db, viewer.signInName))
    if (!(await isPassword(user.passwordHash, values.current))) {
      const wrong = refuse(form, "current", "That is not your present password.")
      return reply.code(422).view("accounts/show", accountPage(request, { password: wrong }))
    }

    await changePassword(app.db, viewer.id, await hashPassword(values.password))
    await signIn(app, reply, viewer.id)
    return reply.redirect("/account?changed=password", 303)
  })
}

const refuseSignIn = (reply: FastifyReply, form: Form) =>
  reply.code(422).view("accounts/sign-in", { form, empty: false })

function accountPage(request: FastifyRequest, forms: { preferences?: Form; password?: Form } = {}) {
  const { temperatureUnit, massUnit, measures, clock, zone } = viewerOf(request)
  return {
    zones,
    preferences: forms.preferences ?? { typed: { temperatureUnit, massUnit, measures, clock, zone }, errors: {} },
    password: forms.password ?? blank,
    changed: (request.query as { changed?: string }).changed === "password",
  }
}
