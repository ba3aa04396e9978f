import { sql } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import { anyone } from "../web/access.ts"

export default async function operations(app: FastifyInstance) {
  app.get("/healthz", { config: { access: anyone }, logLevel: "warn" }, async () => {
    await app.db.execute(sql`select 1`)
    return { status: "ok" }
  })
}
