import { existsSync } from "node:fs"
import { isEmpty, makeLink } from "./accounts/queries.ts"
import { buildApp } from "./app.ts"
import { type Config, readConfig } from "./config.ts"
import { connect } from "./db.ts"
import { StartRefused } from "./start-refused.ts"

const setupDays = 7

if (existsSync(".env")) process.loadEnvFile()
try {
  await start(readConfig(process.env))
} catch (error) {
  if (!(error instanceof StartRefused)) throw error
  console.error(error.message)
  process.exit(1)
}

async function start(config: Config) {
  const { db, close } = await connect({ url: config.DATABASE_URL, dataDir: config.DATA_DIR })
  const app = buildApp({ db, settings: config })
  app.addHook("onClose", close)

  const address = await app.listen({ host: config.HOST, port: config.PORT }).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== "EADDRINUSE") throw error
    throw new StartRefused(
      `PORT ${config.PORT} on ${config.HOST} is taken by another program; give this one a PORT of its own.`,
    )
  })
  if (await isEmpty(db)) {
    const token = await makeLink(db, { purpose: "setup" }, setupDays)
    const link = `${config.PUBLIC_URL || address}/setup/${token}`
    console.log(`\nNobody has an account yet. Make the owner's, once, within ${setupDays} days:\n${link}\n`)
  }
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.once(signal, () => app.close().then(() => process.exit(0)))
}
