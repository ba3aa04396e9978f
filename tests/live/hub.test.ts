import { expect, test } from "vitest"
import type { Listener } from "../../server/listening.ts"
import { eventText } from "../../server/web/event-stream.ts"
import { type Follower, openHub } from "../../server/web/notices.ts"
import { shareWork } from "../../server/web/shared-work.ts"

const somebody = (): Follower => ({ sessionId: "session", viewer: {} as Follower["viewer"] })

/** A hub whose database is this test. */
async function hubWith(pace: { beatMs?: number; restMs?: number } = {}) {
  const hub = openHub({ restMs: 0, ...pace })
  let listener: Listener | undefined
  await hub.listenTo(async (_channel, listens) => {
    listener = listens
    return async () => {}
  })
  const change = (bakeId: number, bakeDayId = 1) => listener!.heard(JSON.stringify({ bakeId, bakeDayId, version: 1 }))
  return { hub, change, missed: () => listener!.missed() }
}

test("changes that come while a reader is busy wait as one", async () => {
  const { hub, change } = await hubWith({ beatMs: 1 })
  const { next } = hub.follow("bake 7", somebody(), new AbortController().signal)
  for (let changes = 0; changes < 10_000; changes++) change(7)
  expect(await next()).toBe("changed")
  expect(await next()).toBe("beat")
})

test("a follower hears of their own bake, of any of their bake day, and of whatever was missed", async () => {
  const { hub, change, missed } = await hubWith({ beatMs: 1 })
  const { signal } = new AbortController()
  const [bake, day] = [hub.follow("bake 7", somebody(), signal), hub.follow("bake day 1", somebody(), signal)]
  change(8)
  expect(await day.next()).toBe("changed")
  expect(await bake.next()).toBe("beat")
  missed()
  expect([await bake.next(), await day.next()]).toEqual(["changed", "changed"])
})

test("who leaves is forgotten, and told that it is over", async () => {
  const { hub } = await hubWith()
  const leaving = new AbortController()
  const { next } = hub.follow("bake 7", somebody(), leaving.signal)
  const happening = next()
  expect(hub.count()).toBe(1)
  leaving.abort()
  expect(await happening).toBe("over")
  expect(hub.count()).toBe(0)
})

test("work is done once for all until something changes, and a failure is not kept", async () => {
  const { share, shareOf, renew } = shareWork(60_000)
  let done = 0
  const work = async () => ++done
  expect(await Promise.all([share("rows", work), share("rows", work), share("others", work)])).toEqual([1, 1, 2])
  renew()
  expect(await share("rows", work)).toBe(3)
  expect([await shareOf("row", "a", work), await shareOf("row", "a", work), await shareOf("row", "b", work)]).toEqual([
    4, 4, 5,
  ])
  renew()
  expect(await shareOf("row", "b", work)).toBe(5)

  await expect(share("failing", () => Promise.reject(new Error("no database")))).rejects.toThrow("no database")
  expect(await share("failing", work)).toBe(6)
})

test("an event is written as the HTML Standard reads it", () => {
  expect(eventText({ id: "3", data: "<p>\n</p>" })).toBe("id: 3\ndata: <p>\ndata: </p>\n\n")
  expect(eventText({ comment: "still here", event: "beat", data: "", retryMs: 2000 })).toBe(
    ": still here\nretry: 2000\nevent: beat\ndata: \n\n",
  )
  expect(eventText({ data: "a\r\nb\rc" })).toBe("data: a\ndata: b\ndata: c\n\n")
  expect(() => eventText({ id: "3\nevent: over" })).toThrow(RangeError)
})
