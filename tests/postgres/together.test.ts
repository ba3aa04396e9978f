import pg from "pg"
import { expect, inject, test } from "vitest"
import { connect } from "../../server/db.ts"
import { users } from "../../server/schema.ts"

test("processes that start together on an empty database all find its tables made", async () => {
  const server = new URL(inject("postgresUrl")!)
  const name = `common_oven_together_${process.pid}`
  const client = new pg.Client({ connectionString: server.href })
  await client.connect()
  await client.query(`drop database if exists ${name}`)
  await client.query(`create database ${name}`)
  server.pathname = `/${name}`

  const connections = await Promise.all([1, 2, 3, 4].map(() => connect({ url: server.href, dataDir: "" })))

  for (const { db } of connections) expect(await db.$count(users)).toBe(0)
  await Promise.all(connections.map(({ close }) => close()))
  await client.query(`drop database ${name}`)
  await client.end()
})
