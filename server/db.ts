import { mkdir } from "node:fs/promises"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { PGlite } from "@electric-sql/pglite"
import { drizzle as drizzlePg } from "drizzle-orm/node-postgres"
import { migrate as migratePg } from "drizzle-orm/node-postgres/migrator"
import type { PgDatabase, PgQueryResultHKT } from "drizzle-orm/pg-core"
import { drizzle as drizzlePglite } from "drizzle-orm/pglite"
import { migrate as migratePglite } from "drizzle-orm/pglite/migrator"
import pg from "pg"
import { claimFolder } from "./folder-claim.ts"
import { type Listen, listenEmbedded, listenOnServer } from "./listening.ts"
import * as schema from "./schema.ts"
import { StartRefused } from "./start-refused.ts"

/** Either database, or a transaction in it. */
export type Db = PgDatabase<PgQueryResultHKT, typeof schema>
/** SQL as text, for a library that writes its own; without values it may be several statements, of which the last answers. */
export type RunSql = (text: string, values?: unknown[]) => Promise<{ rows: unknown[] }>
/** `alone`: no other process can be at work on this database. */
export type Connection = { db: Db; listen: Listen; runSql: RunSql; alone: boolean; close: () => Promise<void> }

const migrationsFolder = fileURLToPath(new URL("../migrations", import.meta.url))
/** Any number will do, as long as every Common Oven process asks for the same one. */
const migrationLock = 8420

/**
 * Opens the database and brings its tables up to date: PostgreSQL when `url` is given, otherwise the embedded one in
 * `dataDir`, which a second process cannot open (it throws FolderInUse).
 */
export async function connect({ url, dataDir }: { url: string; dataDir: string }): Promise<Connection> {
  return url ? connectServer(url) : connectEmbedded(dataDir)
}

async function connectServer(url: string): Promise<Connection> {
  const { hostname: host, port } = new URL(url)
  const pool = new pg.Pool({ connectionString: url })
  // an idle connection that the server drops is replaced by the pool; without a listener it would end the process
  pool.on("error", () => {})
  await migrateUnderLock(pool, `${host}:${port || 5432}`)
  return {
    ...{ db: drizzlePg(pool, { schema }) as unknown as Db, listen: listenOnServer(url), alone: false },
    runSql: async (text, values) => [await pool.query(text, values)].flat().at(-1)!,
    close: () => pool.end(),
  }
}

async function migrateUnderLock(pool: pg.Pool, address: string) {
  const client = await pool.connect().catch((error: Error & { code?: string }) => {
    throw new StartRefused(`The database at ${address} cannot be reached: ${error.message || error.code}.`)
  })
  try {
    await client.query("select pg_advisory_lock($1)", [migrationLock])
    await migratePg(drizzlePg(client, { schema }), { migrationsFolder })
    await client.query("select pg_advisory_unlock($1)", [migrationLock])
  } finally {
    client.release(true)
  }
}

async function connectEmbedded(dataDir: string): Promise<Connection> {
  await mkdir(dataDir, { recursive: true })
  const claim = await claimFolder(dataDir)
  const { close, ...embedded } = await openEmbedded(join(dataDir, "database"))
  return {
    ...embedded,
    close: async () => {
      await close()
      await claim.release()
    },
  }
}

/** The embedded database itself, without a claim on the folder; `memory://` for one that is not kept. */
export async function openEmbedded(folder: string): Promise<Connection> {
  const pglite = await PGlite.create(folder)
  const db = drizzlePglite(pglite, { schema })
  await migratePglite(db, { migrationsFolder })
  return {
    ...{ db: db as unknown as Db, listen: listenEmbedded(pglite), alone: true },
    runSql: async (text, values) => (values ? pglite.query(text, values) : (await pglite.exec(text)).at(-1)!),
    close: () => pglite.close(),
  }
}
