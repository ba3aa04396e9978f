import { readFile } from "node:fs/promises"
import { expect, test } from "vitest"
import { readConfig, settings } from "../server/config.ts"
import { StartRefused } from "../server/start-refused.ts"

test("an empty environment gives the defaults", () => {
  expect(readConfig({})).toEqual({
    HOST: "127.0.0.1",
    PORT: 8420,
    PUBLIC_URL: "",
    DATA_DIR: "./data",
    DATABASE_URL: "",
    LOG_LEVEL: "info",
    TRUST_PROXY: [],
  })
})

test("good values are read into what the service uses", () => {
  const config = readConfig({ PUBLIC_URL: "https://oven.example/", TRUST_PROXY: "127.0.0.1, 10.0.0.0/8", PORT: "80" })
  expect(config).toMatchObject({
    PUBLIC_URL: "https://oven.example",
    TRUST_PROXY: ["127.0.0.1", "10.0.0.0/8"],
    PORT: 80,
  })
})

test.each([
  ["PORT", "abc"],
  ["PORT", "70000"],
  ["PORT", "80.5"],
  ["PUBLIC_URL", "oven.example"],
  ["PUBLIC_URL", "ftp://oven.example"],
  ["DATABASE_URL", "mysql://localhost/oven"],
  ["LOG_LEVEL", "loud"],
  ["TRUST_PROXY", "the proxy"],
  ["TRUST_PROXY", "10.0.0.0/99"],
])("%s=%s stops the start with one sentence that names it", (name, value) => {
  const start = () => readConfig({ [name]: value })
  expect(start).toThrow(StartRefused)
  expect(start).toThrow(new RegExp(`^${name} must be .*, but is "${value}"\\.$`))
})

test("the README's table has every setting with its default", async () => {
  const readme = await readFile(new URL("../README.md", import.meta.url), "utf8")
  for (const [name, { initial }] of Object.entries(settings)) {
    expect(readme).toMatch(new RegExp(`\\| \`${name}\`\\s+\\|.*${initial.replaceAll(".", "\\.")}`))
  }
})
