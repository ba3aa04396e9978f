import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"

const root = new URL("../../server/dough", import.meta.url).pathname
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"))

test.each(files)("%s says of every function it exports what it is", (name) => {
  const lines = readFileSync(join(root, name), "utf8").split("\n")
  const bare = lines.filter((line, index) => isFunction(line, lines[index + 1]) && !lines[index - 1]?.endsWith("*/"))
  expect(bare).toEqual([])
})

/** `export function`, or an exported constant that is an arrow function, on this line or the next. */
function isFunction(line: string, next = "") {
  if (line.startsWith("export function")) return true
  return (
    /^export const \w+ =/.test(line) && /=>|^\s+\(.*\) =>|^\s+<\w+/.test(`${line}${line.endsWith("=") ? next : ""}`)
  )
}
