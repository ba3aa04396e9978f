import type { FastifyInstance } from "fastify"
import { type HTMLElement, parse } from "node-html-parser"

export type Page = {
  status: number
  page: HTMLElement
  text: string
  location: string | undefined
  headers: Record<string, unknown>
}
type Fields = Record<string, string>
export type UploadedFile = { field: string; name: string; type: string; bytes: Buffer }

/** Somebody at a browser without JavaScript. */
export class Visitor {
  readonly id: number
  private app: FastifyInstance
  /** What their browser sends to be known by. */
  cookie: string

  constructor(app: FastifyInstance, id = 0, cookie = "") {
    this.app = app
    this.id = id
    this.cookie = cookie
  }

  /** The same person at another device: what becomes of its cookie does not touch this one's. */
  elsewhere() {
    return new Visitor(this.app, this.id, this.cookie)
  }

  async open(url: string): Promise<Page> {
    return this.send("GET", url)
  }

  /** Submits a form as a browser would, without following the redirect. */
  async submit(url: string, fields: Fields | URLSearchParams = {}): Promise<Page> {
    const payload = new URLSearchParams(fields).toString()
    return this.send("POST", url, payload, { "content-type": "application/x-www-form-urlencoded" })
  }

  /** Submits a form with files, in the order a browser sends them. */
  async upload(url: string, fields: Fields, ...files: UploadedFile[]): Promise<Page> {
    const form = new FormData()
    for (const [name, value] of Object.entries(fields)) form.append(name, value)
    for (const { field, name, type, bytes } of files)
      form.append(field, new Blob([new Uint8Array(bytes)], { type }), name)
    const request = new Request("http://localhost", { method: "POST", body: form })
    const payload = Buffer.from(await request.arrayBuffer())
    return this.send("POST", url, payload, { "content-type": request.headers.get("content-type") ?? "" })
  }

  async send(method: "GET" | "POST", url: string, payload?: string | Buffer, headers: Fields = {}): Promise<Page> {
    const response = await this.app.inject({ method, url, payload, headers: { ...headers, cookie: this.cookie } })
    const set = [response.headers["set-cookie"] ?? []].flat()[0]
    if (set) this.cookie = set.split(";")[0] ?? ""
    const { statusCode: status, body: text, headers: received } = response
    let parsed: HTMLElement | undefined
    return {
      ...{ status, text, location: received.location, headers: received },
      // many tests only ask for the status, and parsing costs more than the request
      get page() {
        parsed ??= parse(text)
        return parsed
      },
    }
  }
}

/** The words of an element as a reader sees them, with runs of spaces as one. */
export const wordsOf = (element: HTMLElement | null) => (element?.text ?? "").replace(/\s+/g, " ").trim()
