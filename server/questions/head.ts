import type { FastifyRequest } from "fastify"
import { teachesSomewhere } from "../classes/access.ts"
import { findHead } from "./queries.ts"

const noPage = /^\/(assets|htmx|photos)\//

/** What the head of a page depends on: whether its reader teaches, and the number of questions for the staff, null for everybody else. */
export async function headFor({ server: { db }, viewer, url }: FastifyRequest) {
  if (!viewer) return { teaches: false, openQuestions: null }
  if (noPage.test(url)) return { teaches: await teachesSomewhere(db, viewer), openQuestions: null }
  return findHead(db, viewer)
}
