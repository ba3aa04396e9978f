import type { FastifyInstance, FastifyReply } from "fastify"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { anyone } from "../web/access.ts"
import { publicUrl } from "../web/public-url.ts"
import { type Asked, askedIn } from "./asked.ts"
import { bakeColumns, stagesOf, toldBakes } from "./bakes.ts"
import { csvOf } from "./csv.ts"
import { documentOf } from "./document.ts"
import { asAttachment } from "./file-names.ts"
import { picturesOf, zipOf } from "./photos.ts"
import { countExported } from "./queries.ts"
import { readingColumns, readingRows } from "./readings.ts"
import { schemaAt, schemaPath } from "./schema.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }

/** A whole bake day to take away, as far as who asks may see it, and nothing that says who somebody is outside the class. */
export default async function exports(app: FastifyInstance) {
  app.get("/bake-days/:id/export", members, async (request, reply) => {
    const { db, bakeDay, asking, seesAll, bakes } = await askedIn(request)
    const counted = { bakes: bakes.length, ...(await countExported(db, bakeDay.id, asking)) }
    return reply.view("export/show", { bakeDay, seesAll, counted, schemaPath })
  })

  app.get("/bake-days/:id/export/readings.csv", members, async (request, reply) => {
    const asked = await askedIn(request)
    const rows = csvOf(readingColumns(asked), readingRows(asked), markedFor(request.query))
    return sendFile(reply, asked, "readings.csv", csv).send(rows)
  })

  app.get("/bake-days/:id/export/bakes.csv", members, async (request, reply) => {
    const asked = await askedIn(request)
    const columns = bakeColumns(asked, await stagesOf(asked))
    return sendFile(reply, asked, "bakes.csv", csv).send(csvOf(columns, toldBakes(asked), markedFor(request.query)))
  })

  app.get("/bake-days/:id/export/bake-day.json", members, async (request, reply) => {
    const asked = await askedIn(request)
    const file = documentOf(asked, publicUrl(request) + schemaPath)
    return sendFile(reply, asked, "bake-day.json", "application/json; charset=utf-8").send(file)
  })

  app.get("/bake-days/:id/export/photos.zip", members, async (request, reply) => {
    const asked = await askedIn(request)
    return sendFile(reply, asked, "photos.zip", "application/zip").send(zipOf(picturesOf(asked), app.photoStore))
  })

  app.get(schemaPath, { config: { access: anyone } }, async (request, reply) => {
    return reply
      .type("application/schema+json; charset=utf-8")
      .header("cache-control", "public, max-age=3600")
      .send(JSON.stringify(schemaAt(publicUrl(request) + schemaPath), null, 2))
  })
}

const csv = "text/csv; charset=utf-8; header=present"

const sendFile = (reply: FastifyReply, { bakeDay }: Asked, name: string, type: string) =>
  reply.type(type).header("cache-control", "no-store").header("content-disposition", asAttachment(bakeDay, name))

const markedFor = (query: unknown) => ({ marked: (query as { for?: unknown }).for === "spreadsheet" })
