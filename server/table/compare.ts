import { sayTo } from "../accounts/say.ts"
import type { Viewer } from "../web/access.ts"
import { typedIn } from "../web/forms.ts"
import { layAxis } from "./axis.ts"
import { causesIn } from "./cause-words.ts"
import { linesOf, resultsOf } from "./compared.ts"
import { drawHill } from "./hill.ts"
import { type Laid, layBake } from "./laid.ts"
import { dots, points, thinned } from "./paths.ts"
import { type Lined, linings } from "./places.ts"
import type { TableBake } from "./queries.ts"
import { drawRibbon } from "./ribbon.ts"
import { em, nearnessOf } from "./wall.ts"
import { wordsFor } from "./words.ts"

const [fewest, most] = [2, 4]

/** The bakes that an address names, each once: "?bakes=3&bakes=5", or "?bakes=3,5". */
export function chosenIn(query: unknown): number[] {
  const { bakes } = (query ?? {}) as { bakes?: unknown }
  const typed = [bakes ?? []].flat().flatMap((text) => String(text).slice(0, 500).split(","))
  return [...new Set(typed.filter((text) => /^[1-9]\d{0,8}$/.test(text)).map(Number))]
}

/** Why so many cannot be compared; "" where they can. */
export function cannotCompare(count: number): string {
  if (count < fewest) return `Choose two to four bakes; ${count === 0 ? "none is" : "only one is"} chosen.`
  return count > most ? `${count} bakes are chosen; two to four fit side by side.` : ""
}

/** Bakes in full beside each other, in the order of the address: what differed, what became of them, what was the same. */
export function comparePage(bakes: TableBake[], ids: number[], query: unknown, viewer: Viewer, now: Date) {
  const say = sayTo(viewer)
  const typed = typedIn(query)
  const asked = {
    lined: linings.find((one) => one === typed.lined) ?? ("table" as const),
    large: typed.for === "projector",
  }
  const laid = ids.flatMap((id) => bakes.find((bake) => bake.id === id) ?? []).map((bake) => layBake(bake, now, say))
  const zone = bakes[0]!.zone
  const axis = layAxis(
    laid.map(({ row }) => row),
    asked.lined,
    zone,
  )
  const lines = linesOf(laid, say)
  const isKnown = ({ cells }: { cells: unknown[] }) => cells.some(Boolean)
  const shown = laid.map((item) => shownIn(item, laid, say))
  return {
    ...{ asked, axis, drawn: { points, dots }, em },
    items: shown.map((item) => {
      const ribbon = drawRibbon(item.row, axis)
      return { ...item, ribbon: { ...ribbon, dots: thinned(ribbon.dots) } }
    }),
    differing: lines.filter(({ differs }) => differs),
    same: lines.filter((line) => !line.differs && isKnown(line)),
    unknown: lines.filter((line) => !isKnown(line)).map(({ head }) => head),
    results: resultsOf(laid, say),
    linings: liningWords.filter(([key]) => key !== asked.lined),
    lining: liningWords.find(([key]) => key === asked.lined)![1],
    toScale: shown.every(({ pictures }) => pictures.every(({ acrossMm }) => acrossMm !== null)),
    nearness: nearnessOf(shown.flatMap(({ pictures }) => pictures)),
    oneDay:
      new Set(laid.map(({ bake }) => bake.bakeDayId)).size === 1
        ? { id: laid[0]!.bake.bakeDayId, title: laid[0]!.bake.title }
        : null,
    to: (change: Partial<typeof asked>) => addressOf(ids, { ...asked, ...change }),
  }
}

const liningWords: [Lined, string][] = [
  ["table", "the time it was wanted on the table"],
  ["start", "the start of fermentation"],
  ["clock", "the clock"],
  ["reference", "reference hours"],
]

function shownIn(item: Laid, all: Laid[], say: ReturnType<typeof sayTo>) {
  const { row, bake } = item
  const namesakes = all.filter(({ name }) => name === item.name)
  const ofDay =
    new Set(namesakes.map(({ bake }) => bake.bakeDayId)).size > 1 ? `, ${say.day(bake.onTableAt, bake.zone)}` : ""
  const called = namesakes.length > 1 ? `${item.name}${ofDay || `, bake ${item.nth}`}` : item.name
  return {
    ...item,
    called,
    words: wordsFor(row, called, say, bake.zone),
    hill: "mean" in row.verdict ? drawHill(row.verdict) : null,
    causes: causesIn(row.causes, say),
    pictures: bake.photos.filter(({ subject }) => subject === "crumb" || subject === "crust").slice(0, 2),
    suspects: row.verdict.call === "not enough to say" ? [] : row.verdict.suspects.slice(0, 2),
  }
}

function addressOf(ids: number[], { lined, large }: { lined: Lined; large: boolean }) {
  const fields = ids.map((id) => ["bakes", String(id)])
  return `/compare?${new URLSearchParams([...fields, ["lined", lined], ...(large ? [["for", "projector"]] : [])])}`
}
