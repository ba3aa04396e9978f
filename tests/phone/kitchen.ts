import { rm } from "node:fs/promises"
import { request as ask, createServer, type Server } from "node:http"
import type { AddressInfo } from "node:net"
import { eq } from "drizzle-orm"
import { hashPassword } from "../../server/accounts/passwords.ts"
import { buildApp } from "../../server/app.ts"
import { connect, type Db } from "../../server/db.ts"
import { users } from "../../server/schema.ts"
import { openHub } from "../../server/web/notices.ts"
import { gatherCast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { emptyDataDir } from "../data-dir.ts"

export const password = "rye and caraway"
const settings = { PUBLIC_URL: "", LOG_LEVEL: "silent" as const, TRUST_PROXY: ["127.0.0.1"] }

export type Kitchen = Awaited<ReturnType<typeof openKitchen>>

/** The service on a port of its own, with the cast's class, bake days with a bake of Ben's and one of Bea's, and a line to it that loses answers. */
export async function openKitchen() {
  const dataDir = await emptyDataDir()
  const { db, listen, close } = await connect({ url: "", dataDir })
  const hub = openHub()
  await hub.listenTo(listen)
  const app = buildApp({ db, settings: { ...settings, DATA_DIR: dataDir }, hub })
  app.addHook("onClose", close)
  const line = await openLine(await app.listen({ host: "127.0.0.1", port: 0 }))
  const cast = await gatherCast(app)
  const passwordHash = await hashPassword(password)
  for (const { id } of [cast.ben, cast.bea]) await db.update(users).set({ passwordHash }).where(eq(users.id, id))
  return {
    url: line.url,
    line,
    /** A bake day that nobody has touched, with the addresses of Ben's and of Bea's bake. */
    async newBakes() {
      const { bakeDayId } = await giveBakeDay(db, cast)
      const bakeOf = async (who: typeof cast.ben) => (await who.submit(`/bake-days/${bakeDayId}/bakes`)).location!
      return { ben: await bakeOf(cast.ben), bea: await bakeOf(cast.bea) }
    },
    /** Looks into the service's database. */
    look: <T>(at: (db: Db) => Promise<T>) => at(db),
    async close() {
      line.close()
      await app.close()
      await rm(dataDir, { recursive: true })
    },
  }
}

type Losing = (sending: number) => boolean

/** Stands between browser and service. It can lose the answer to a form that the service has already kept. */
async function openLine(serviceUrl: string) {
  let loses: Losing = () => false
  let [sendings, requests] = [0, 0]
  const server: Server = createServer((incoming, outgoing) => {
    const { method, headers, url } = incoming
    const lost = method === "POST" && loses(++sendings)
    // each request from an address of its own, or so many sign-ins would look like one guesser's
    const from = { "x-forwarded-for": `10.0.${++requests >> 8}.${requests & 255}` }
    const onward = ask(`${serviceUrl}${url}`, { method, headers: { ...headers, ...from } }, (answer) => {
      if (lost) return answer.resume().on("end", () => incoming.socket.destroy())
      outgoing.writeHead(answer.statusCode ?? 502, answer.headers)
      answer.pipe(outgoing)
    })
    onward.on("error", () => incoming.socket.destroy())
    incoming.pipe(onward)
  }).listen(0, "127.0.0.1")
  await new Promise((resolve) => server.once("listening", resolve))
  const { port } = server.address() as AddressInfo
  return {
    port,
    url: `http://127.0.0.1:${port}`,
    sendings: () => sendings,
    loseAnswers: (which: Losing) => {
      loses = which
      sendings = 0
    },
    close: () => {
      server.closeAllConnections()
      server.close()
    },
  }
}
