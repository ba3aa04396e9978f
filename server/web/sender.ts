import type { FastifyInstance, FastifyRequest } from "fastify"
import { problem } from "./errors.ts"

// A phone that could not send at once says so in these headers: who was signed in when the button was pressed, and when
// that was and when it sends now, both by its own clock.
const viewerHeader = "oven-viewer"
const pressedHeader = "oven-pressed-at"
const sentHeader = "oven-sent-at"

/** Within so much, a phone's clock is taken as right. Our own choice. */
const skewMs = 2 * 60_000
/** Nobody's phone waits longer for a network. Our own choice. */
const longestWaitMs = 31 * 86_400_000

/** Refuses what somebody else made on this phone before the person now signed in (409): it is never sent as theirs. */
export function refuseOthersEntries(app: FastifyInstance) {
  app.addHook("onRequest", async (request) => {
    const maker = request.headers[viewerHeader]
    if (maker !== undefined && request.viewer && maker !== String(request.viewer.id)) throw problem(409)
  })
}

/** Whether a phone sends what it kept, and wants to be told of a lost session instead of being led to sign in. */
export const isKeptEntry = (request: FastifyRequest) => request.headers[viewerHeader] !== undefined

/**
 * When the button of this request was pressed: now or, for an entry that waited on a phone, then. A phone whose clock is
 * off is corrected by how far it is off while it sends. Never in the future.
 */
export function pressedAt(request: FastifyRequest, now = new Date()): Date {
  const [pressed, sent] = [pressedHeader, sentHeader].map((name) => Date.parse(String(request.headers[name] ?? "")))
  if (!(pressed! <= sent!)) return now
  const off = +now - sent!
  const at = Math.abs(off) <= skewMs ? pressed! : pressed! + off
  return at > +now || at < +now - longestWaitMs ? now : new Date(at)
}
