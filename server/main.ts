import { isEmpty, makeLink } from "./accounts/queries.ts"
import { connect } from "./db.ts"
import { launch, serve } from "./launch.ts"

const setupDays = 7

await launch(async (config) => {
  const connection = await connect({ url: config.DATABASE_URL, dataDir: config.DATA_DIR })
  // before it serves: afterwards it would wait behind whatever is asked first
  const token = (await isEmpty(connection.db)) && (await makeLink(connection.db, { purpose: "setup" }, setupDays))
  const address = await serve(config, connection)
  if (token) {
    const link = `${address}/setup/${token}`
    console.log(`\nNobody has an account yet. Make the owner's, once, within ${setupDays} days:\n${link}\n`)
  }
})
