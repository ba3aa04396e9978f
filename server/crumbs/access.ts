import type { FastifyRequest } from "fastify"
import { mayDoWith } from "../bakes/access.ts"
import { roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import { itsViewers, photoIn } from "../photos/access.ts"
import type { Ask, Rule, Viewer } from "../web/access.ts"
import { findCountsMaker, findCrumb } from "./queries.ts"

/** Whoever sees the photo sees what it measures. */
export const itsReaders: Rule = {
  who: "who sees the photo, signed in",
  allows: async (ask) => ((await photoIn(ask.db, ask.request)).bakeId ? itsViewers.allows(ask) : "hidden"),
}

export const itsMarkers: Rule = {
  who: "the baker, assistants and instructors of the class",
  allows: (ask) => answer(ask, (may) => may.marks),
}

export const itsCounters: Rule = {
  who: "assistants and instructors of the class",
  allows: (ask) => answer(ask, (may) => may.counts),
}

export const whoCounted: Rule = {
  who: "who counted",
  allows: async ({ db, viewer, id }) => ((await findCountsMaker(db, id)) === viewer.id ? "yes" : "hidden"),
}

async function answer(ask: Ask, allowed: (may: May) => boolean) {
  const seen = await itsReaders.allows(ask)
  return seen !== "yes" ? seen : allowed(await mayWith(ask.db, ask.viewer, ask.request)) ? "yes" : "no"
}

/** Whether somebody may mark the area and the scale of a photo they see, and count its cells. */
export type May = { marks: boolean; counts: boolean }
export async function mayWith(db: Db, viewer: Viewer, request: FastifyRequest): Promise<May> {
  const { id, bakeId } = await photoIn(db, request)
  const may = bakeId ? await mayDoWith(db, viewer, bakeId) : undefined
  const crumb = await findCrumb(db, id)
  const role = crumb && (await roleIn(db, viewer, crumb.bake.classId))
  return { marks: may === "write" || may === "delete", counts: role === "assistant" || role === "instructor" }
}
