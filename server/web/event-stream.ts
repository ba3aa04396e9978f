import { Readable } from "node:stream"
import type { FastifyReply } from "fastify"

/** One event of a stream; `retryMs` is how long to wait before connecting again, `comment` is heard by proxies only. */
export type StreamEvent = { id?: string; event?: string; data?: string; retryMs?: number; comment?: string }

/**
 * An event as the HTML Standard writes it (section 9.2.5, "Parsing an event stream"): a field a line, an empty line at the
 * end. Throws RangeError for an id or a name that holds a line break.
 */
export function eventText({ id, event, data, retryMs, comment }: StreamEvent) {
  for (const name of [id, event]) if (/[\r\n\0]/.test(name ?? "")) throw new RangeError("an id or name of two lines")
  const lines = [
    ...prefixed(": ", comment),
    ...prefixed("retry: ", retryMs?.toString()),
    ...prefixed("id: ", id),
    ...prefixed("event: ", event),
    ...prefixed("data: ", data),
  ]
  return `${lines.join("\n")}\n\n`
}

const prefixed = (prefix: string, text: string | undefined) =>
  text === undefined ? [] : text.split(/\r\n|\r|\n/).map((line) => prefix + line)

/**
 * Answers with events for as long as there are any and somebody reads them. The next is asked for only once the last has
 * been taken, so a slow reader holds up nothing but themselves. `signal` ends when they are gone.
 */
export function sendEvents(reply: FastifyReply, events: (signal: AbortSignal) => AsyncIterable<StreamEvent>) {
  const gone = new AbortController()
  reply.raw.once("close", () => gone.abort())
  if (reply.raw.destroyed) gone.abort() // who left while we asked whether they may come in
  return reply
    .type("text/event-stream")
    .header("cache-control", "no-store, no-transform") // a proxy that compresses would hold events back
    .header("x-accel-buffering", "no")
    .send(Readable.from(texts(events(gone.signal)), { highWaterMark: 1 }))
}

async function* texts(events: AsyncIterable<StreamEvent>) {
  for await (const event of events) yield eventText(event)
}
