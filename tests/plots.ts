import type { HTMLElement } from "node-html-parser"

/** A plot as it is drawn: read from the paths and boxes, by the axes as they are labelled, without looking at any number of the table. */
export type DrawnSeries = { name: string; index: string; kind: Kind; points: DrawnPoint[] }
type Kind = "line" | "dots" | "band" | "step" | "bar" | "span"
export type DrawnPoint = { x: number; y: number; low?: number; high?: number; until?: number }
type Range = { y: number; high?: number; low?: number }

/**
 * Where the drawing of a plot and the numbers under it differ, in words; [] when they agree, each within half a drawn unit
 * and half of the last decimal. `page` holds the figure and the numbers that it may share with others.
 */
export function disagreements(figure: HTMLElement, page: HTMLElement = figure): string[] {
  const { series, x, y } = drawnIn(figure, page)
  return series.flatMap((one) => {
    const rows = numbersOf(figure, page, one)
    if (!rows) return [`${one.name}: no numbers`]
    if (rows.length !== one.points.length)
      return [`${one.name}: ${one.points.length} drawn, ${rows.length} in the numbers`]
    return rows.flatMap((row, nth) => differing(one, one.points[nth]!, row, { x, y, halfUnit: halfUnitIn(figure) }))
  })
}

/** All series of a figure, in data units. Throws where an axis has too few labels to be read. */
export function drawnIn(figure: HTMLElement, page: HTMLElement = figure) {
  const svg = figure.querySelector(".plot-field > svg")!
  const turned = svg.classList.contains("turned")
  const used = svg
    .querySelectorAll("use")
    .map((use) => page.querySelector(`[id="${use.getAttribute("href")!.slice(1)}"]`)!)
  const axes = svg.querySelector(".ticks-across") ? svg : used[0]!
  const [across, down] = [scaleOf(axes, ".ticks-across text", "x"), scaleOf(axes, ".ticks-down text", "y")]
  const [x, y] = turned ? [down, across] : [across, down]
  const groups = [...used.filter((one) => one.classList.contains("series")), ...svg.querySelectorAll("g.series")]
  const series = groups.map((group): DrawnSeries => {
    const read = (place: Place) =>
      turned ? { x: x.at(place[1]), y: y.at(place[0]) } : { x: x.at(place[0]), y: y.at(place[1]) }
    const { kind, points } = pointsIn(group, read)
    return { name: group.querySelector("title")!.text, index: group.getAttribute("data-series")!, kind, points }
  })
  return { series, x, y }
}

type Place = [x: number, y: number]
type Scale = {
  at(unit: number): number
  perUnit: number
  value(words: string): number
  name(value: number): string | undefined
}

/** What one drawn unit, a thousandth of the drawing, is worth: from the places of the first and the last labelled tick. */
function scaleOf(svg: HTMLElement, selector: string, attribute: "x" | "y"): Scale {
  const texts = svg.querySelectorAll(selector).map((text) => ({
    words: text.text.trim(),
    // the labels of the other axis stand at 100 % or −7 px
    unit: Number.parseFloat(text.getAttribute(attribute)!) * 10,
  }))
  const named = texts.every(({ words }) => Number.isNaN(numberIn(words)))
  const value = (words: string) => {
    const place = texts.findIndex((one) => one.words === words)
    if (named && place >= 0) return place
    // on an axis of numbers, the one word is that of the start
    return place >= 0 && Number.isNaN(numberIn(words)) ? 0 : numberIn(words)
  }
  const name = (at: number) => (named ? texts[Math.round(at)]?.words : undefined)
  const ticks = texts.map(({ words, unit }) => ({ unit, at: value(words) }))
  const [first, last] = [ticks[0], ticks.at(-1)]
  // the names of an axis are 1 apart, and it reaches half of that beyond them
  if (named && first && first === last)
    return { value, perUnit: 0.001, at: (unit) => (unit - first.unit) * 0.001, name }
  if (!first || !last || first === last) throw new Error(`${selector}: two labels are needed to read an axis`)
  const perUnit = (last.at - first.at) / (last.unit - first.unit)
  return {
    ...{ value, name, perUnit: Math.abs(perUnit), at: (unit) => first.at + (unit - first.unit) * perUnit },
  }
}

/** "14:35", "02:10 +1 day", "+2 h", "−2.5", "start". */
function numberIn(words: string): number {
  const clock = /^(\d\d):(\d\d)(?: ([+−])(\d+) days?)?$/.exec(words)
  if (clock) {
    const days = Number(clock[4] ?? 0) * (clock[3] === "−" ? -1 : 1)
    return Number(clock[1]) + Number(clock[2]) / 60 + days * 24
  }
  const number = /^([+−-]?)([\d.]+)(?: h)?$/.exec(words)
  if (!number) return Number.NaN
  return Number(number[2]) * (number[1] === "−" || number[1] === "-" ? -1 : 1)
}

type Read = (place: Place) => { x: number; y: number }

function pointsIn(group: HTMLElement, read: Read): { kind: Kind; points: DrawnPoint[] } {
  const dOf = (name: string) => group.querySelector(`path.${name}`)?.getAttribute("d") ?? ""
  const whiskers = whiskersIn(dOf("whiskers")).map(([from, to]) => ({
    x: read(from).x,
    low: read(from).y,
    high: read(to).y,
  }))
  const rects = group.querySelectorAll("rect").map(boxOf)
  if (group.classList.contains("kind-span")) return { kind: "span", points: rects.map((box) => ofSpan(box, read)) }
  if (rects.length) return { kind: "bar", points: rects.map((box, nth) => ofBox(box, read, whiskers[nth])) }
  if (dOf("area")) return { kind: "band", points: ofArea(walk(dOf("area")), read) }
  const d = dOf("marks") || dOf("line")
  const kind = dOf("marks") ? "dots" : /[HV]/.test(d) ? "step" : "line"
  const points = walk(d).map(read)
  const rangeOf = ({ x, y }: DrawnPoint) => {
    const at = whiskers.findIndex((one) => Math.abs(one.x - x) < 1e-9 && one.low <= y && one.high >= y)
    const [found] = at < 0 ? [] : whiskers.splice(at, 1)
    return found ? { low: found.low, high: found.high } : {}
  }
  return { kind, points: points.map((point) => ({ ...point, ...rangeOf(point) })) }
}

/** The first half of an area's outline goes along its points, the second back along their other edge. */
function ofArea(places: Place[], read: Read): DrawnPoint[] {
  const half = places.length / 2
  return places.slice(0, half).map((place, nth) => ({ ...read(place), high: read(places[places.length - 1 - nth]!).y }))
}

type Box = { from: Place; to: Place }
function boxOf(rect: HTMLElement): Box {
  const [x, y, width, height] = ["x", "y", "width", "height"].map(
    (name) => Number.parseFloat(rect.getAttribute(name)!) * 10,
  )
  return { from: [x!, y!], to: [x! + width!, y! + height!] }
}

/** A box as a bar: how long it is, up from where it stands or down from where it hangs. */
function ofBox({ from, to }: Box, read: Read, whisker?: { low: number; high: number }): DrawnPoint {
  const [a, b] = [read(from), read(to)]
  const [bottom, top] = [Math.min(a.y, b.y), Math.max(a.y, b.y)]
  const up = (top + bottom) / 2 >= 0
  const base = up ? bottom : top
  const range = whisker ? { low: whisker.low - base, high: whisker.high - base } : {}
  return { x: (a.x + b.x) / 2, y: up ? top - bottom : bottom - top, ...range }
}

function ofSpan({ from, to }: Box, read: Read): DrawnPoint {
  const [a, b] = [read(from), read(to)]
  return { x: a.x, until: b.x, y: (a.y + b.y) / 2 }
}

const whiskersIn = (d: string): [Place, Place][] =>
  [...d.matchAll(/M([^ML]+)L([^ML]+)/g)].map(([, from, to]) => [pairIn(from!), pairIn(to!)])

const pairIn = (text: string) => text.match(/-?[\d.]+/g)!.map(Number) as Place

/** The corners of a path that are points: M and l as a line has them, M, m and h0 as marks have them, H and V as steps have them. */
function walk(d: string): Place[] {
  const places: Place[] = []
  let [x, y] = [0, 0]
  for (const [, letter, text] of d.matchAll(/([MmlHVh])([^MmlHVhz]*)/g)) {
    const [a = 0, b = 0] = (text!.match(/-?[\d.]+/g) ?? []).map(Number)
    if (letter === "M") [x, y] = [a, b]
    if (letter === "l" || letter === "m") [x, y] = [x + a, y + b]
    if (letter === "H") x = a
    if (letter === "V") y = a
    if ("MmlV".includes(letter!)) places.push([x, y])
  }
  return places
}

type Row = { x: string; cell: string }

/** The column of the table that stands for a series, without the rows that say they lie outside the drawing. */
function numbersOf(figure: HTMLElement, page: HTMLElement, { index }: DrawnSeries): Row[] | undefined {
  const own = figure.getAttribute("id") ?? ""
  const places = [own, own.replace(/^.*-/, "class-")] // its own numbers, or those that all of its kind share
  const head = places
    .map((id) => page.querySelector(`[id="${id}-numbers"]`)?.querySelector(`th[data-series="${index}"]`))
    .find(Boolean)
  const table = head?.closest("table")
  if (!head || !table) return undefined
  const column = table.querySelectorAll("thead th").indexOf(head)
  return table
    .querySelectorAll("tbody tr")
    .filter((row) => !row.classList.contains("not-drawn"))
    .map((row) => ({
      x: row.querySelector("th")!.text.trim(),
      cell: row.querySelectorAll("td")[column - 1]!.text.trim(),
    }))
}

type Scales = { x: Scale; y: Scale; halfUnit: number }
function differing({ name, kind }: DrawnSeries, drawn: DrawnPoint, row: Row, { x, y, halfUnit }: Scales): string[] {
  const said = numberedIn(row.cell, y)
  const [from, until] = row.x.split(" to ")
  const pairs: [string, number | undefined, number | undefined, Scale, string][] = [
    ["x", drawn.x, x.value(from!), x, from!],
    ["until", drawn.until, until === undefined ? undefined : x.value(until), x, until ?? ""],
    ["y", drawn.y, said.y, y, row.cell],
    ["high", drawn.high, said.high, y, row.cell],
    ["low", kind === "band" ? undefined : drawn.low, said.low, y, row.cell],
  ]
  const loose = kind === "bar" ? 0.5 : 0 // bars beside each other share the place of their name
  return pairs.flatMap(([what, inDrawing, inNumbers, scale, words]) => {
    if (inDrawing === undefined && inNumbers === undefined) return []
    const near = halfUnit * scale.perUnit + halfLastDecimal(words) + (what === "x" ? loose : 0)
    const apart = Math.abs((inDrawing ?? Number.NaN) - (inNumbers ?? Number.NaN))
    return apart <= near ? [] : [`${name} ${what} at ${row.x}: drawn ${inDrawing}, said ${words}`]
  })
}
// Half of what is drawn in, a tenth of a unit or, where plots are small, a whole one; a bar's two ends may both be off.
const halfUnitIn = (figure: HTMLElement) => (figure.classList.contains("compact") ? 0.51 : 0.11)

function numberedIn(cell: string, scale: Scale): Range {
  const band = /^(\S+(?: [+−]\d+ days?)?) to ([^,]+)/.exec(cell)
  if (band) return { y: scale.value(band[1]!), high: scale.value(band[2]!) }
  const [, value = "", low, high] = /^([^,(]+?)(?: \((\S+) to (\S+)\))?(?:,|$)/.exec(cell) ?? []
  return { y: scale.value(value), ...(low && high ? { low: scale.value(low), high: scale.value(high) } : {}) }
}

function halfLastDecimal(words: string) {
  if (/\d\d:\d\d/.test(words)) return 0.5 / 60 + 1e-9
  return 0.5 * 10 ** -(/\d\.(\d+)/.exec(words)?.[1]?.length ?? 0) + 1e-9
}
