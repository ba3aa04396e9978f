import type { FastifyRequest } from "fastify"
import { countOpen, staffSomewhere } from "./queries.ts"

const noPage = /^\/(assets|htmx|photos)\//

/** The number in the head of every page of the staff; null for everybody else, and where no page is asked for. */
export async function openQuestionsFor({ server: { db }, viewer, url }: FastifyRequest) {
  if (!viewer || noPage.test(url) || !(await staffSomewhere(db, viewer))) return null
  return countOpen(db, viewer)
}
