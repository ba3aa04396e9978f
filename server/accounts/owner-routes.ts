import type { FastifyInstance } from "fastify"
import { idOf, theOwner } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { publicUrl } from "../web/public-url.ts"
import { linkDays, listAccounts, makeLink } from "./queries.ts"

/** All accounts, for the owner: those in no class any more can be helped only here. */
export default async function allAccounts(app: FastifyInstance) {
  app.get("/accounts", { config: { access: theOwner } }, async (_request, reply) => {
    return reply.view("accounts/index", { accounts: await listAccounts(app.db), link: null })
  })

  app.post("/accounts/:id/password-link", { config: { access: theOwner } }, async (request, reply) => {
    const accounts = await listAccounts(app.db)
    const { id, signInName } = found(accounts.find((account) => account.id === idOf(request)))
    const token = await makeLink(app.db, { purpose: "password", userId: id }, linkDays)
    const link = { name: signInName, url: `${publicUrl(request)}/new-password/${token}`, days: linkDays }
    return reply.view("accounts/index", { accounts, link })
  })
}
