/** The service in a process of its own for live.ts, which asks it how many follow and what that costs. */
import { buildApp } from "../../server/app.ts"
import { connect } from "../../server/db.ts"
import { openHub } from "../../server/web/notices.ts"

const { url = "", dataDir = "" } = JSON.parse(process.argv[2] ?? "{}") as { url?: string; dataDir?: string }
const { db, listen, close } = await connect({ url, dataDir })
const hub = openHub()
await hub.listenTo(listen)
const app = buildApp({ db, settings: { PUBLIC_URL: "", DATA_DIR: dataDir, LOG_LEVEL: "silent", TRUST_PROXY: [] }, hub })
app.addHook("onClose", close)

process.on("message", async (message) => {
  const { user, system } = process.cpuUsage()
  if (message === "count") process.send?.({ followers: hub.count(), cpuMs: (user + system) / 1000 })
  if (message === "stop") await app.close().then(() => process.exit(0))
})
process.send?.({ address: await app.listen({ host: "127.0.0.1", port: 0 }) })
