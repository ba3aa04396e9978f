import { findOwner, linkDays, makeLink } from "./accounts/queries.ts"
import { connect } from "./db.ts"
import { launch } from "./launch.ts"
import { StartRefused } from "./start-refused.ts"

/** For an owner who has forgotten the password: prints a link, to be opened once the service runs again. */
await launch(async (config) => {
  const { db, close } = await connect({ url: config.DATABASE_URL, dataDir: config.DATA_DIR })
  const owner = await findOwner(db)
  if (!owner) throw new StartRefused("There is no owner yet; npm start prints the link that makes one.")
  const token = await makeLink(db, { purpose: "password", userId: owner.id }, linkDays)
  await close()
  const address = config.PUBLIC_URL || `http://${config.HOST}:${config.PORT}`
  console.log(
    `A new password for ${owner.signInName}, once, within ${linkDays} days:\n${address}/new-password/${token}`,
  )
})
