import { readFile } from "node:fs/promises"
import sharp from "sharp"
import { version } from "../server/offline/version.ts"
import { started } from "./bench.ts"
import { expect, test } from "./test.ts"

const stylesheet = await readFile(new URL("../static/oven.css", import.meta.url), "utf8")

test("the worker carries the version of what pages are made of, and is asked for each time", async ({ cast }) => {
  const { status, text, headers } = await cast.stranger.open("/worker.js")
  expect(status).toBe(200)
  expect(headers["content-type"]).toBe("text/javascript; charset=utf-8")
  expect(headers["cache-control"]).toBe("no-cache")
  expect(text).toContain(`const version = "${version}"`)
})

test("every answer says its version, so that a phone knows a newer one, and our answers from a stranger's", async ({
  cast,
}) => {
  for (const url of ["/", "/classes", "/classes/999", "/healthz"])
    expect((await cast.ben.open(url)).headers["oven-version"], url).toBe(version)
})

test("phones can install us: in our colours, with icons of the sizes that are said", async ({ cast, app }) => {
  const { headers, text } = await cast.stranger.open("/manifest.webmanifest")
  expect(headers["content-type"]).toContain("application/manifest+json")
  const manifest = JSON.parse(text)
  expect(manifest).toMatchObject({ name: "Common Oven", start_url: "/", display: "standalone" })
  for (const colour of [manifest.background_color, manifest.theme_color]) expect(stylesheet).toContain(colour)
  expect(manifest.icons.map((icon: { purpose: string }) => icon.purpose)).toContain("maskable")
  for (const { src, sizes, type } of manifest.icons) {
    const { rawPayload, headers } = await app.inject(src)
    const { width, height } = await sharp(rawPayload).metadata()
    expect([`${width}x${height}`, headers["content-type"]]).toEqual([sizes, type])
  }
})

test("a page says whose it is, but only to somebody signed in", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const { page } = await cast.ben.open(url)
  expect(page.querySelector("body")?.getAttribute("data-viewer")).toBe(String(cast.ben.id))
  expect(page.querySelector("link[rel=manifest]")?.getAttribute("href")).toBe("/manifest.webmanifest")
  expect(page.querySelector("#waiting")?.getAttribute("hidden")).toBeDefined()
  const open = await cast.stranger.open("/offline")
  expect(open.page.querySelector("body")?.getAttribute("data-viewer")).toBeUndefined()
})

test("every script a page asks for is there", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const { page } = await cast.ben.open(url)
  const asked = page.querySelectorAll("head script[src], head link[href]")
  for (const element of asked) {
    const address = element.getAttribute("src") ?? element.getAttribute("href") ?? ""
    expect((await cast.stranger.open(address)).status, address).toBe(200)
  }
})
