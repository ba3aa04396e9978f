import { readdirSync, readFileSync } from "node:fs"
import { term } from "../server/glossary/term.ts"
import { entries, type TermKey } from "../server/glossary/words.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"

const views = readdirSync("views", { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".eta"))
const repeated = (names: string[]) => names.filter((name, at) => names.indexOf(name) !== at)

test("every name in the glossary, alternative ones too, leads to one entry alone", () => {
  const names = entries.flatMap(([, entry]) => [entry.term, ...(entry.also ?? [])])
  expect(repeated(names.map((name) => name.toLowerCase()))).toEqual([])
  expect(repeated(entries.map(([key]) => key))).toEqual([])
})

test("whatever an entry refers to exists, and is not itself", () => {
  const keys = new Set<string>(entries.map(([key]) => key))
  const lost = entries.flatMap(([key, entry]) => (entry.see ?? []).filter((see) => !keys.has(see) || see === key))
  expect(lost).toEqual([])
})

test("every word that a view links is in the glossary, and none stands in a button, a label or another link", () => {
  const keys = new Set<string>(entries.map(([key]) => key))
  for (const name of views) {
    const text = readFileSync(`views/${name}`, "utf8")
    const linked = [...text.matchAll(/\bterm\("([^"]+)"/g)].map((match) => match[1]!)
    expect(
      linked.filter((key) => !keys.has(key)),
      name,
    ).toEqual([])
    const inside = /<(a|button|label|summary|option|caption)\b(?:(?!<\/\1>)[\s\S])*?\bterm\(/.exec(text)
    expect(inside?.[0] ?? "", name).toBe("")
  }
})

test("the page has an anchor for each, without signing in, and its own links lead to them", async ({ cast }) => {
  const { status, page } = await cast.stranger.open("/glossary")
  expect(status).toBe(200)
  const anchors = new Set(page.querySelectorAll("main [id]").map(({ id }) => id))
  expect(entries.filter(([key]) => !anchors.has(key))).toEqual([])
  const targets = page.querySelectorAll('main a[href^="#"]').map((link) => link.getAttribute("href")!.slice(1))
  expect(targets.length).toBeGreaterThan(entries.length)
  expect(targets.filter((target) => !anchors.has(target))).toEqual([])
})

test("the labels of a formula, a bake day and its bill lead to the words they use", async ({ cast, db }) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const linked = async (url: string) => {
    const { page } = await cast.ben.open(url)
    expect(page.querySelectorAll("a a, button a.term, label a.term"), url).toEqual([])
    return page.querySelectorAll("a.term").map((link) => link.getAttribute("href")!.replace("/glossary#", ""))
  }
  expect(await linked(`/revisions/${revisionId}`)).toEqual(
    expect.arrayContaining(["levain", "hydration", "prefermented-flour", "bakers-percentage", "hands-on"]),
  )
  expect(await linked(`/bake-days/${bakeDayId}`)).toEqual(
    expect.arrayContaining(["dough-temperature", "rise", "hands-on", "hydration"]),
  )
})

test("a label keeps its own words, and what is in them", () => {
  expect(term("bulk", "First rise & <more>")).toBe(
    '<a class="term" href="/glossary#bulk">First rise &amp; &lt;more&gt;</a>',
  )
  expect(() => term("gravel" as TermKey)).toThrow(RangeError)
})
