import { sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import type { Listen } from "../listening.ts"
import type { Viewer } from "./access.ts"
import { shareWork } from "./shared-work.ts"
import { newWaiting } from "./waiting.ts"

/** One bake changed; `version` is what it was changed to. */
export type Notice = { bakeId: number; bakeDayId: number; version: number }

const channel = "common_oven"

/** Tells every process of the service, this one too, once the transaction is kept (PostgreSQL: NOTIFY). */
export async function notify(db: Db, notice: Notice) {
  await db.execute(sql`select pg_notify(${channel}, ${JSON.stringify(notice)})`)
}

/** What can be followed: one bake, all of a bake day, or every bake there is. */
export type Topic = `bake ${number}` | `bake day ${number}` | "every bake"
/** Somebody at an open page, and the session they opened it with. */
export type Follower = { viewer: Viewer; sessionId: string }
export type Hub = ReturnType<typeof openHub>
export type Following = ReturnType<Hub["follow"]>

declare module "fastify" {
  interface FastifyInstance {
    hub: Hub
  }
}

type Followed = { waiting: Map<Follower, ReturnType<typeof newWaiting>>; work: ReturnType<typeof shareWork> }

/** Our own choices: proxies close what is silent for a minute, and a change right after another waits a little. */
const usual = { beatMs: 15_000, restMs: 200 }

/**
 * Hands what the one listener of this process hears to everybody who follows that bake or bake day. Nobody has a queue:
 * who is slow, or was cut off, is told once that something changed, and looks.
 */
export function openHub(pace: Partial<typeof usual> = {}) {
  const { beatMs, restMs } = { ...usual, ...pace }
  const topics = new Map<Topic, Followed>()
  let stop: (() => Promise<void>) | undefined

  function changed(topic: Topic) {
    const followed = topics.get(topic)
    followed?.work.renew()
    for (const waiting of followed?.waiting.values() ?? []) waiting.tell("changed")
  }

  return {
    listenTo: async (listen: Listen) => {
      stop = await listen(channel, {
        heard: (payload) => {
          const { bakeId, bakeDayId } = JSON.parse(payload) as Notice
          changed(`bake ${bakeId}`)
          changed(`bake day ${bakeDayId}`)
          changed("every bake")
        },
        missed: () => [...topics.keys()].map(changed),
      })
    },
    /** Whether changes are heard at all; where they are not, pages have to ask. */
    listens: () => stop !== undefined,
    /** How many follow anything at all. */
    count: () => [...topics.values()].reduce((sum, { waiting }) => sum + waiting.size, 0),

    /** Has `follower` follow a topic until `signal`. */
    follow: (topic: Topic, follower: Follower, signal: AbortSignal) => {
      const followed = topics.get(topic) ?? { waiting: new Map(), work: shareWork(beatMs / 2) }
      const waiting = newWaiting({ beatMs, restMs })
      const leave = () => {
        waiting.tell("over")
        followed.waiting.delete(follower)
        if (followed.waiting.size === 0 && topics.get(topic) === followed) topics.delete(topic)
      }
      topics.set(topic, followed)
      followed.waiting.set(follower, waiting)
      signal.addEventListener("abort", leave, { once: true })
      if (signal.aborted) leave()
      const everybody = () => [...followed.waiting.keys()]
      const { share, shareOf } = followed.work
      return { follower, next: waiting.next, share, shareOf, everybody, leave }
    },

    close: async () => {
      for (const { waiting } of topics.values()) for (const one of waiting.values()) one.tell("over")
      await stop?.()
      stop = undefined
    },
  }
}
