import { existsSync } from "node:fs"
import { isEmpty, makeLink } from "./accounts/queries.ts"
import { buildApp } from "./app.ts"
import { ConfigError, readConfig } from "./config.ts"
import { connect } from "./db.ts"
import { FolderInUse } from "./folder-claim.ts"

const setupDays = 7

if (existsSync(".env")) process.loadEnvFile()
try {
  await start()
} catch (error) {
  if (!(error instanceof ConfigError || error instanceof FolderInUse)) throw error
  console.error(error.message)
  process.exit(1)
}

async function start() {
  const config = readConfig(process.env)
  const { db, close } = await connect({ url: config.DATABASE_URL, dataDir: config.DATA_DIR })
  const app = buildApp({ db, settings: config })
  app.addHook("onClose", close)

  const address = await app.listen({ host: config.HOST, port: config.PORT })
  if (await isEmpty(db)) {
    const token = await makeLink(db, { purpose: "setup" }, setupDays)
    console.log(
      `\nNobody has an account yet. Make the owner's, once, within ${setupDays} days:\n${config.PUBLIC_URL || address}/setup/${token}\n`,
    )
  }
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.once(signal, () => app.close().then(() => process.exit(0)))
}
