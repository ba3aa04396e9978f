import { get, type IncomingMessage } from "node:http"

export type Received = { id: string; event: string; data: string; comment: string }

/** An open stream of events as a browser reads it (HTML Standard, section 9.2.6), comments besides. */
export async function openEvents(url: string, headers: Record<string, string> = {}) {
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get(url, { headers, agent: false }, resolve).on("error", reject)
  })
  const received: Received[] = []
  const waiting: ((event: Received | undefined) => void)[] = []
  let [rest, over] = ["", false]
  const pass = (event: Received) => (waiting.length ? waiting.shift()!(event) : received.push(event))

  response.setEncoding("utf8")
  response.on("data", (text: string) => {
    const blocks = (rest + text).split("\n\n")
    rest = blocks.pop()!
    for (const block of blocks) pass(parse(block))
  })
  response.on("error", () => {})
  response.on("close", () => {
    over = true
    for (const resolve of waiting.splice(0)) resolve(undefined)
  })

  /** The next event of any kind; undefined when there will be none. */
  const next = () =>
    new Promise<Received | undefined>((resolve) => {
      if (received.length || over) resolve(received.shift())
      else waiting.push(resolve)
    })
  /** The next event that brings something, heartbeats left out. */
  async function nextNews(): Promise<Received | undefined> {
    for (;;) {
      const event = await next()
      if (event?.event !== "beat") return event
    }
  }
  return { status: response.statusCode, headers: response.headers, next, nextNews, close: () => response.destroy() }
}

function parse(block: string): Received {
  const event: Received = { id: "", event: "", data: "", comment: "" }
  const data: string[] = []
  for (const line of block.split("\n")) {
    const [, name = "", value = ""] = /^([^:]*):? ?(.*)$/.exec(line)!
    if (name === "data") data.push(value)
    else if (name === "") event.comment = value
    else if (name === "id" || name === "event") event[name] = value
  }
  return { ...event, data: data.join("\n") }
}
