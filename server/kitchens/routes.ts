import type { FastifyInstance } from "fastify"
import { ownPath, preferencesForm } from "../accounts/forms.ts"
import { signedIn, viewerOf } from "../web/access.ts"
import { type Form, readForm, type Typed } from "../web/forms.ts"
import { zones } from "../web/zones.ts"
import { readKitchen } from "./forms.ts"
import { findKitchen, keepKitchen } from "./queries.ts"
import { mostWeeks, typedForm, typedKitchen, weeksFor } from "./typed.ts"

const settingsForm = preferencesForm.required({ clock: true })

/** A person's kitchen: asked once, changed at any time, and never in the way of anything. */
export default async function kitchens(app: FastifyInstance) {
  app.get("/kitchen", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const { back = "", kept } = request.query as { back?: string; kept?: string }
    const { temperatureUnit, massUnit, measures, clock, zone } = viewer
    const kitchen = typedKitchen(await findKitchen(app.db, viewer.id))
    const typed = { ...kitchen, temperatureUnit, massUnit, measures, clock, zone, back: backPath(back) }
    return reply.view("kitchens/show", { ...page({ typed, errors: {} }), kept: kept !== undefined })
  })

  app.post("/kitchen", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const typed = typedForm(request.body)
    if (typed.more) return reply.view("kitchens/show", page({ typed: withMoreWeeks(typed), errors: {} }))
    const { kitchen, errors } = readKitchen(typed, viewer)
    const settings = readForm(settingsForm, typed)
    const form = { typed, errors: { ...settings.form.errors, ...errors } }
    if (!settings.values || Object.keys(errors).length) return reply.code(422).view("kitchens/show", page(form))
    await keepKitchen(app.db, viewer.id, kitchen, settings.values)
    return reply.redirect(backPath(typed.back) || "/kitchen?kept", 303)
  })
}

/** The page that sent somebody here, to which they go back; "" for none. */
const backPath = (path: unknown) => (typeof path === "string" && path ? ownPath(path) : "")

const withMoreWeeks = (typed: Typed): Typed => ({ ...typed, weeks: String(weeksFor(weeksOf(typed))) })
const weeksOf = ({ weeks }: Typed) => Math.min(Math.max(1, Math.floor(Number(weeks)) || 1), mostWeeks)

function page(form: Form) {
  return { form, zones, weeks: weeksOf(form.typed as Typed), mostWeeks, kept: false }
}
