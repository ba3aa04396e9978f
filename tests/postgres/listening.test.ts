import { setTimeout as wait } from "node:timers/promises"
import pg from "pg"
import { expect, inject, test } from "vitest"
import { listenOnServer } from "../../server/listening.ts"

const url = () => inject("postgresUrl")!

/** Listens on a channel of its own, with what was heard and how often something may have been missed. */
async function listening() {
  const channel = `test_${Math.random().toString(36).slice(2)}`
  const heard: string[] = []
  let missed = 0
  const stop = await listenOnServer(url())(channel, { heard: (words) => heard.push(words), missed: () => missed++ })
  const client = new pg.Client({ connectionString: url() })
  await client.connect()
  const say = (words: string) => client.query("select pg_notify($1, $2)", [channel, words])
  return { channel, heard, missed: () => missed, say, client, stop }
}
async function until(true_: () => boolean | Promise<boolean>) {
  while (!(await true_())) await wait(20)
}
const listeners = `select pid from pg_stat_activity where application_name = 'common_oven listening' and datname = current_database()`

test("what is said in any process is heard, in order", async () => {
  const { heard, say, client, stop } = await listening()
  for (const words of ["one", "two", "three"]) await say(words)
  await until(() => heard.length === 3)
  expect(heard).toEqual(["one", "two", "three"])
  await Promise.all([stop(), client.end()])
})

test("a listener whose connection the server ends comes back, and says that it may have missed something", async () => {
  const { heard, missed, say, client, stop } = await listening()
  await client.query(`select pg_terminate_backend(pid) from (${listeners}) them`)
  await until(() => missed() === 1)
  await say("heard again")
  await until(() => heard.length === 1)
  expect(heard).toEqual(["heard again"])
  await Promise.all([stop(), client.end()])
})

test("nothing is left on the server once listening has stopped", async () => {
  const { client, stop } = await listening()
  expect((await client.query(listeners)).rowCount).toBe(1)
  await stop()
  await until(async () => (await client.query(listeners)).rowCount === 0)
  await client.end()
})
