import pg from "pg"
import { inject } from "vitest"
import { type Connection, connect, openEmbedded } from "../server/db.ts"

declare module "vitest" {
  interface ProvidedContext {
    postgresUrl?: string
  }
}

/** One database for this test file's process: on the server that the test run was given, else the embedded one in memory. */
export async function openTestDatabase(): Promise<Connection> {
  const server = inject("postgresUrl")
  if (!server) return openEmbedded("memory://")
  const name = `common_oven_test_${process.pid}_${process.env.VITEST_WORKER_ID ?? 0}_${Math.random().toString(36).slice(2, 8)}`
  const client = new pg.Client({ connectionString: server })
  await client.connect()
  await client.query(`create database ${name}`)
  await client.end()
  const url = new URL(server)
  url.pathname = `/${name}`
  return connect({ url: url.href, dataDir: "" })
}
