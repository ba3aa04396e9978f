import { existsSync } from "node:fs"
import { buildApp } from "./app.ts"
import { type Config, readConfig } from "./config.ts"
import type { Connection } from "./db.ts"
import { openMeasuring } from "./measuring/queue.ts"
import { photoStore } from "./photos/storage.ts"
import { StartRefused } from "./start-refused.ts"
import { openHub } from "./web/notices.ts"

/** Reads the settings and starts with them; a refused start ends the process with its one sentence. */
export async function launch(start: (config: Config) => Promise<void>) {
  if (existsSync(".env")) process.loadEnvFile()
  try {
    await start(readConfig(process.env))
  } catch (error) {
    if (!(error instanceof StartRefused)) throw error
    console.error(error.message)
    process.exit(1)
  }
}

/** Serves pages until a signal ends the process, closing the database with them. Gives the address people can open. */
export async function serve(config: Config, connection: Connection): Promise<string> {
  const { db, listen, close } = connection
  const hub = openHub()
  await hub.listenTo(listen)
  const app = buildApp({ db, settings: config, hub })
  let measuring: ReturnType<typeof openMeasuring> | undefined
  app.addHook("onClose", async () => {
    await (await measuring?.catch(() => undefined))?.stop()
    await close()
  })

  const address = await app.listen({ host: config.HOST, port: config.PORT }).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== "EADDRINUSE") throw error
    throw new StartRefused(
      `PORT ${config.PORT} on ${config.HOST} is taken by another program; give this one a PORT of its own.`,
    )
  })
  measuring = openMeasuring({ connection, store: photoStore(config.DATA_DIR), log: app.log })
  measuring.catch((error) => app.log.error(error))
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.once(signal, () => app.close().then(() => process.exit(0)))
  return config.PUBLIC_URL || address
}
