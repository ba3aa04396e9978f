import { isEmpty, makeLink } from "./accounts/queries.ts"
import { connect } from "./db.ts"
import { launch, serve } from "./launch.ts"

const setupDays = 7

await launch(async (config) => {
  const connection = await connect({ url: config.DATABASE_URL, dataDir: config.DATA_DIR })
  const address = await serve(config, connection)
  if (await isEmpty(connection.db)) {
    const token = await makeLink(connection.db, { purpose: "setup" }, setupDays)
    const link = `${address}/setup/${token}`
    console.log(`\nNobody has an account yet. Make the owner's, once, within ${setupDays} days:\n${link}\n`)
  }
})
