import { rmSync } from "node:fs"
import { mkdtemp } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { isEmpty } from "../accounts/queries.ts"
import type { Config } from "../config.ts"
import { connect, type Db } from "../db.ts"
import { launch, serve } from "../launch.ts"
import { photoStore } from "../photos/storage.ts"
import { StartRefused } from "../start-refused.ts"
import { findDemo, seedDemo } from "./class.ts"
import { hall, members, owner, type Person, password } from "./people.ts"

const signals = ["SIGINT", "SIGTERM"] as const

await launch(async (settings) => {
  const config = {
    ...settings,
    DATA_DIR: process.env.DATA_DIR?.trim() ? settings.DATA_DIR : await temporaryFolder(),
    // so that the sign-ins below are not lost among requests
    LOG_LEVEL: process.env.LOG_LEVEL?.trim() ? settings.LOG_LEVEL : ("warn" as const),
  }
  const { connection, bakeDayId } = await endingCleanly(prepare(config))
  console.log(welcome(await serve(config, connection), bakeDayId))
})

async function prepare({ DATABASE_URL: url, DATA_DIR: dataDir }: Config) {
  const connection = await connect({ url, dataDir })
  return { connection, ...(await seedOnce(connection.db, dataDir)) }
}

async function seedOnce(db: Db, dataDir: string) {
  if (await isEmpty(db)) {
    console.log("Drawing a class of twelve and its bread…")
    return seedDemo({ db, photoStore: photoStore(dataDir), now: new Date() })
  }
  const found = await findDemo(db)
  if (!found)
    throw new StartRefused("This database has accounts already, so the demo leaves it alone; give it an empty one.")
  return found
}

/** A signal before anything is served ends the process the ordinary way, so that a temporary folder goes with it. */
async function endingCleanly<T>(work: Promise<T>): Promise<T> {
  const end = () => process.exit(1)
  for (const signal of signals) process.once(signal, end)
  return work.finally(() => {
    for (const signal of signals) process.off(signal, end)
  })
}
/** Gone when the process ends. */
async function temporaryFolder() {
  const folder = await mkdtemp(join(tmpdir(), "common-oven-demo-"))
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }))
  return folder
}

function welcome(address: string, bakeDayId: number) {
  const as = (person: Person | undefined, what: string) => `  ${person?.signInName.padEnd(9)} ${what}`
  const named = (signInName: string) => members.find((member) => member.signInName === signInName)
  return [
    `\n${hall.name}, ${hall.place}: ${address}`,
    `The class side by side: ${address}/bake-days/${bakeDayId}/table\n`,
    `Sign in with the password ${password} as`,
    as(owner, "owner of the service"),
    as(named("marta"), "instructor"),
    as(named("tobias"), "assistant"),
    as(named("amparo"), "student, bread done well"),
    as(named("lioba"), "student in another time zone, dough in its bulk right now"),
    "or as anybody else in the class, by first name.\n",
  ].join("\n")
}
