import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { teachers } from "../classes/access.ts"
import { slug } from "../export/file-names.ts"
import { itsReaders } from "../formulas/access.ts"
import { asMade, wayOf } from "../formulas/content.ts"
import { variantOf } from "../formulas/page.ts"
import { addFormula, findOpenRevision, findRevision, type Revision } from "../formulas/queries.ts"
import { anyone, idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { bringIn } from "./bring-in.ts"
import { tableOf } from "./csv-out.ts"
import { formulaSchemaPath } from "./namespace.ts"
import { recipeOfRevision } from "./recipe-data.ts"
import { formulaSchemaAt } from "./schema.ts"
import { textOf } from "./text-out.ts"
import { draftOf, understoodPage } from "./understood.ts"
import { mostFileMb, readGiven } from "./upload.ts"

const teach = { config: { access: teachers } }
const readers = { config: { access: itsReaders } }
const open = { config: { access: anyone } }
type ByToken = { Params: { token: string } }

/** A formula in, from wherever it was written, and out, to wherever it is needed. */
export default async function exchange(app: FastifyInstance) {
  app.get("/formulas/import", teach, async (_request, reply) => {
    return reply.view("exchange/import", { form: blank, mostFileMb })
  })

  app.post("/formulas/import", teach, async (request, reply) => {
    const { fields, tooLarge } = await readGiven(request)
    const brought = tooLarge
      ? { problem: `The file is larger than ${mostFileMb} MB. Save the page as “HTML only”, or paste the words.` }
      : bringIn(fields.pasted ?? "", askedIn(fields, request))
    if ("problem" in brought) return refused(reply, fields, brought.problem)
    return reply.view("exchange/understood", await understoodPage(request, brought))
  })

  app.post("/formulas/import/draft", teach, async (request, reply) => {
    const { fields } = await readGiven(request)
    const brought = bringIn(fields.pasted ?? "", askedIn(fields, request))
    if ("problem" in brought) return refused(reply, fields, brought.problem)
    const { title, content, errors } = draftOf(brought, fields, request)
    if (Object.keys(errors).length)
      return reply
        .code(422)
        .view("exchange/understood", await understoodPage(request, brought, { typed: fields, errors }))
    const id = await addFormula(app.db, viewerOf(request).id, { title, content })
    return reply.redirect(`/formulas/${id}/edit`, 303)
  })

  for (const kind of ["json", "csv", "txt"] as const) {
    app.get(`/revisions/:id/formula.${kind}`, readers, async (request, reply) => {
      const revision = found(await findRevision(app.db, idOf(request)))
      return sendFile(reply, kind, revision, `/revisions/${revision.id}`)
    })
    app.get<ByToken>(`/open/:token/formula.${kind}`, open, async (request, reply) => {
      const revision = found(await findOpenRevision(app.db, request.params.token))
      return sendFile(reply, kind, revision, `/open/${request.params.token}`)
    })
  }

  app.get(formulaSchemaPath, open, async (request, reply) => {
    return reply
      .type("application/schema+json; charset=utf-8")
      .header("cache-control", "public, max-age=3600")
      .send(JSON.stringify(formulaSchemaAt(publicUrl(request) + formulaSchemaPath), null, 2))
  })
}

function askedIn({ measures = "", which = "" }: Record<string, string>, request: FastifyRequest) {
  const chosen = (["us", "us-label", "metric", "imperial"] as const).find((one) => one === measures)
  return { measures: chosen ?? viewerOf(request).measures, which: /^\d{1,3}$/.test(which) ? Number(which) : 0 }
}

/** The first form again, with what was pasted and what is wrong with it. */
const refused = (reply: FastifyReply, typed: Record<string, string>, problem: string) =>
  reply.code(422).view("exchange/import", { form: { typed, errors: { pasted: problem } }, mostFileMb })

const types = {
  json: "application/ld+json; charset=utf-8",
  csv: "text/csv; charset=utf-8; header=present",
  txt: "text/plain; charset=utf-8",
}

/** The words and the table are of the way that was asked for; the JSON has all of them. */
function sendFile(reply: FastifyReply, kind: keyof typeof types, revision: Revision, path: string) {
  const { request } = reply
  const { content, ownIngredients } = revision
  const way = wayOf(content, variantOf(request))
  const title = way ? `${revision.title}: ${way.name}` : revision.title
  const made = asMade(content, variantOf(request))
  const body = {
    json: () => `${JSON.stringify(recipeOfRevision(request, revision, path), null, 2)}\n`,
    csv: () => tableOf(title, made, ownIngredients),
    txt: () => textOf(title, { ...made, variants: way ? [] : content.variants }, sayTo(request.viewer)),
  }[kind]
  return reply
    .type(types[kind])
    .header("cache-control", "no-store")
    .header("content-disposition", `attachment; filename="${slug(title, 60) || "formula"}.${kind}"`)
    .send(body())
}
