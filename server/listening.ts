import { setTimeout as wait } from "node:timers/promises"
import type { PGlite } from "@electric-sql/pglite"
import pg from "pg"

/** `heard` gets what was said on the channel; `missed` is told whenever something may have been said that nobody heard. */
export type Listener = { heard: (payload: string) => void; missed: () => void }
/** Listens to a channel (PostgreSQL: LISTEN) until the answer is called. */
export type Listen = (channel: string, listener: Listener) => Promise<() => Promise<void>>

/** The embedded database speaks to its own process only, and never drops it. */
export const listenEmbedded =
  (pglite: PGlite): Listen =>
  async (channel, { heard }) => {
    const stop = await pglite.listen(channel, heard)
    return () => stop()
  }

/** A server that does not answer for so long is taken as gone. Our own choice, like the pauses between tries. */
const answerMs = 10_000
const [firstPauseMs, longestPauseMs] = [100, 5000]

/** On a connection of its own, made anew whenever the server drops it or falls silent. */
export const listenOnServer =
  (url: string): Listen =>
  async (channel, listener) => {
    const stopping = new AbortController()
    let present = await connectTo(url, channel, listener)
    const listening = goOn()
    return async () => {
      stopping.abort()
      await present.end()
      await listening
    }

    async function goOn() {
      for (;;) {
        await present.lost
        const next = await connectAgain(() => connectTo(url, channel, listener), stopping.signal)
        if (!next) return
        present = next
        listener.missed()
      }
    }
  }

async function connectTo(connectionString: string, channel: string, { heard }: Listener) {
  const client = new pg.Client({
    ...{ connectionString, keepAlive: true, application_name: "common_oven listening" },
    ...{ connectionTimeoutMillis: answerMs, query_timeout: answerMs },
  })
  client.on("error", () => {}) // "end" follows, and is what we wait for
  client.on("notification", ({ payload }) => heard(payload ?? ""))
  const end = () => client.end().catch(() => {})
  // a server that vanished says nothing, so it is asked now and then
  const asking = setInterval(() => client.query("select 1").catch(end), answerMs)
  const lost = new Promise((resolve) => client.once("end", resolve)).then(() => clearInterval(asking))
  try {
    await client.connect()
    await client.query(`listen ${client.escapeIdentifier(channel)}`)
  } catch (error) {
    clearInterval(asking)
    end()
    throw error
  }
  return { lost, end }
}

/** Tries until it succeeds, at growing intervals; undefined when it was told to stop. */
async function connectAgain<T extends { end: () => Promise<void> }>(connect: () => Promise<T>, stopping: AbortSignal) {
  for (let pauseMs = firstPauseMs; ; pauseMs = Math.min(2 * pauseMs, longestPauseMs)) {
    await wait(pauseMs, undefined, { signal: stopping }).catch(() => {})
    const next = stopping.aborted ? undefined : await connect().catch(() => undefined)
    if (!stopping.aborted && next) return next
    if (stopping.aborted) return next?.end()
  }
}
