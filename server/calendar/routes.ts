import { createHash } from "node:crypto"
import type { FastifyInstance, FastifyRequest } from "fastify"
import { classOfBakeDay, listCurrent } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { asAttachment } from "../export/file-names.ts"
import { anyone, idOf, signedIn, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { typedIn } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { dayOf } from "../web/zones.ts"
import { type Lead, leadIn, leadTimes, usualLead } from "./alarms.ts"
import { findCalendarDay, listCalendarEvents } from "./days.ts"
import { calendarFile } from "./file.ts"
import { findFeed, findPersonOfFeed, makeFeed, revokeFeed } from "./queries.ts"

type ByToken = { Params: { token: string } }

const calendarType = "text/calendar; charset=utf-8"

/** Calendars ask once in a while, many of them from one address: an hour's worth for every few minutes. Our own choice. */
const asOftenAsCalendars = {
  ...{ max: 60, timeWindow: "10 minutes" },
  keyGenerator: (request: FastifyRequest) => (request.params as { token: string }).token,
}

/** People's own days in the calendars they use anyway: a file for one bake day, and a private address that follows all. */
export default async function calendar(app: FastifyInstance) {
  app.get("/bake-days/:id/day.ics", { config: { access: membersOf(classOfBakeDay) } }, async (request, reply) => {
    const { bakeDay, events } = found(await findCalendarDay(app.db, viewerOf(request), idOf(request), asked(request)))
    // a day that nobody can reckon: the page of it says why
    if (events.length === 0) return reply.redirect(`/bake-days/${bakeDay.id}/plan`, 303)
    reply.header("content-disposition", asAttachment(bakeDay, "day.ics")).header("cache-control", "private, no-store")
    return reply.type(calendarType).send(calendarFile(events, { madeAt: new Date(), renewed: false }))
  })

  app.get("/calendar", { config: { access: signedIn } }, async (request, reply) => {
    return reply.view("calendar/show", await calendarPage(app, request))
  })

  app.post("/calendar/address", { config: { access: signedIn } }, async (request, reply) => {
    await makeFeed(app.db, viewerOf(request).id)
    return reply.redirect(`/calendar${asLead(leadIn(typedIn(request.query).before))}`, 303)
  })

  app.post("/calendar/address/revocation", { config: { access: signedIn } }, async (request, reply) => {
    await revokeFeed(app.db, viewerOf(request).id)
    return reply.redirect("/calendar?ended=yes", 303)
  })

  app.get<ByToken>(
    "/feeds/:token.ics",
    // whoever has the address reads the calendar, so it is not written into the log of requests
    { logLevel: "warn", config: { access: anyone, rateLimit: asOftenAsCalendars } },
    async (request, reply) => {
      const person = found(await findPersonOfFeed(app.db, request.params.token))
      const events = await listCalendarEvents(app.db, person, asked(request))
      const tag = `W/"${createHash("sha256").update(JSON.stringify(events)).digest("base64url")}"`
      reply.header("etag", tag).header("cache-control", "private, no-cache").header("x-robots-tag", "noindex")
      if (request.headers["if-none-match"]?.includes(tag)) return reply.code(304).send()
      return reply.type(calendarType).send(calendarFile(events, { madeAt: new Date(), renewed: true }))
    },
  )
}

const asked = (request: FastifyRequest) => ({
  ...{ now: new Date(), lead: leadIn(typedIn(request.query).before), publicUrl: publicUrl(request) },
})

const asLead = (lead: Lead) => (lead === usualLead ? "" : `?before=${lead ?? "never"}`)

async function calendarPage(app: FastifyInstance, request: FastifyRequest) {
  const viewer = viewerOf(request)
  const { before, ended } = typedIn(request.query)
  const lead = leadIn(before)
  const feed = await findFeed(app.db, viewer.id)
  const address = feed && `${publicUrl(request)}/feeds/${feed.token}.ics${asLead(lead)}`
  return {
    ...{ address, madeAt: feed?.madeAt, asLead: asLead(lead), ended: ended === "yes" && !feed, leadTimes, lead },
    bakeDays: await listCurrent(app.db, viewer, dayOf(new Date(), viewer.zone)),
  }
}
