import { expect, test } from "vitest"
import { type Fragment, patch, regionsIn, rowOf } from "../../server/live/fragments.ts"

const region = (id: string, words: string): Fragment => ({ id, html: `<p id="${id}">${words}</p>` })
const row = (id: string, words = id): Fragment => rowOf(`<li id="${id}">${words}</li>`, "list")
const sent = (before: Fragment[] | undefined, after: Fragment[]) =>
  [...patch(before, after, ["list"]).matchAll(/hx-target="#([^"]+)" hx-swap="(\w+)">(.*?)<\/hx-partial>/gs)].map(
    ([, target, swap, html]) => `${swap} ${target}: ${html!.replace(/<[^>]+>/g, " ").trim()}`,
  )

test("only what changed is sent", () => {
  expect(sent([region("now", "mix"), region("log", "none")], [region("now", "bulk"), region("log", "none")])).toEqual([
    "outerMorph now: bulk",
  ])
  expect(patch([region("now", "mix"), row("a")], [region("now", "mix"), row("a")], ["list"])).toBe("")
})

test("everything is sent where it is not known what a page shows", () => {
  expect(sent(undefined, [region("now", "mix"), row("a"), row("b")])).toEqual([
    "outerMorph now: mix",
    "innerMorph list: a  b",
  ])
})

test("a row that is new comes after its neighbour, and several together", () => {
  expect(sent([row("a"), row("d")], [row("a"), row("b"), row("c"), row("d")])).toEqual(["after a: b  c"])
  expect(sent([row("b")], [row("a"), row("b")])).toEqual(["prepend list: a"])
  expect(sent([], [row("a")])).toEqual(["prepend list: a"])
})

test("rows go, change and come at once", () => {
  expect(sent([row("a"), row("b"), row("c")], [row("b", "changed"), row("c"), row("d")])).toEqual([
    "delete a: ",
    "outerMorph b: changed",
    "after c: d",
  ])
})

test("rows that changed places are put there anew", () => {
  expect(sent([row("a"), row("b")], [row("b"), row("a")])).toEqual(["delete a: ", "delete b: ", "prepend list: b  a"])
})

test("the regions of a page, each whole, the inner with the outer", () => {
  const page = `<main><section id="one" data-region><section>a</section><p id="in" data-region>b</p></section>
    <p>not this</p><div class="x" id="two" data-region hx-get="/"><div>c</div></div></main>`
  expect(regionsIn(page)).toEqual([
    { id: "one", html: '<section id="one" data-region><section>a</section><p id="in" data-region>b</p></section>' },
    { id: "two", html: '<div class="x" id="two" data-region hx-get="/"><div>c</div></div>' },
  ])
})
