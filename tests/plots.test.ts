import fc from "fast-check"
import Fastify from "fastify"
import { parse } from "node-html-parser"
import { afterAll, beforeAll } from "vitest"
import { hoursAxis, namesAxis, niceAxis, reachOf, valueWords } from "../server/plots/axes.ts"
import type { Plot, PlotAxis, Series } from "../server/plots/plot.ts"
import { shownPlot } from "../server/plots/shown.ts"
import { renderViews } from "../server/web/views.ts"
import { disagreements, drawnIn } from "./plots.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const views = Fastify()
beforeAll(async () => {
  renderViews(views, { shownPlot })
  await views.ready()
})
afterAll(() => views.close())

/** The figure of a plot, as a page includes it. */
async function figureOf(plot: Plot, temperatureUnit: "C" | "F" = "C") {
  const html = await (views as unknown as Drawer).view("/plots/_plot", { plot, id: "p1", say: { temperatureUnit } })
  return parse(html).querySelector("figure")!
}
type Drawer = { view(page: string, data: object): Promise<string> }

const minutes = { label: "Time to target", unit: "min" }
const warmth = { label: "Dough", unit: "°C" }
const plotOf = (series: Series[], changes: Partial<Plot> = {}): Plot => ({
  title: "Time to target against temperature",
  says: "Warm doughs were quicker.",
  x: niceAxis(...reachOf(series, "x"), warmth),
  y: niceAxis(...reachOf(series, "y"), minutes),
  series,
  ...changes,
})
const dots: Series = {
  name: "the class",
  kind: "dots",
  role: "own",
  points: [
    { x: 19.4, y: 412, label: "Ottoline" },
    { x: 23.1, y: 318, low: 290, high: 351, guessed: true },
    { x: 26.8, y: 240 },
  ],
}
const fit: Series = { name: "line", kind: "line", role: "fit", points: [19, 27].map((x) => ({ x, y: 820 - 21.5 * x })) }
const limits: Series = {
  ...fit,
  name: "limits",
  kind: "band",
  role: "limits",
  points: [19, 23, 27].map((x) => ({ x, y: 760 - 21.5 * x, high: 880 - 21.5 * x })),
}
const bars = (name: string, ys: number[], more: Partial<Series> = {}): Series => ({
  name,
  kind: "bar",
  role: "own",
  points: ys.map((y, x) => ({ x, y })),
  ...more,
})
const names = namesAxis("Bake", ["Ottoline", "Bram", "Ludmila"])
const shares = (series: Series[], changes: Partial<Plot> = {}) => plotOf(series, { x: names, ...changes })

const every: Record<string, Plot> = {
  "dots with ranges, a line and its limits": plotOf([dots, fit, limits]),
  "a course by the clock past midnight": plotOf(
    [{ ...fit, marked: true, points: [21, 24.25, 26.9].map((x) => ({ x, y: x * x })) }],
    { x: hoursAxis(20, 28, { label: "Clock" }) },
  ),
  "hours from a start": plotOf([fit], { x: hoursAxis(-1, 28, { label: "since bulk began", zero: "bulk" }) }),
  steps: plotOf([
    {
      ...fit,
      kind: "step",
      points: [
        { x: 20, y: 1 },
        { x: 22, y: 1.4 },
        { x: 25, y: 0.3 },
      ],
    },
  ]),
  "bars above and below 0 with their ranges": shares([
    bars("share", [52, -12, 8], {
      points: [
        { x: 0, y: 52, low: 31, high: 70 },
        { x: 1, y: -12, low: -20, high: 4 },
        { x: 2, y: 8, low: 2, high: 9 },
      ],
    }),
  ]),
  "bars beside each other": shares([bars("first", [52, -12, 8]), bars("second", [40, 3, 0.4])]),
  "stacks that grow both ways": shares([
    bars("time", [12, -30, 8], { stacked: true }),
    bars("levain", [-5, -10, 22], { stacked: true }),
    bars("yeast", [3, 4, -1], { stacked: true }),
  ]),
  "stacks that lie down": shares(
    [bars("time", [12, -30, 8], { stacked: true }), bars("levain", [-5, -10, 22], { stacked: true })],
    { turned: true },
  ),
  spans: plotOf(
    [
      {
        name: "stages",
        kind: "span",
        role: "own",
        points: [
          { x: 9, until: 14, y: 1, label: "bulk" },
          { x: 14.2, until: 16.5, y: 1 },
        ],
      },
      { name: "plan", kind: "span", role: "plan", points: [{ x: 9, until: 15, y: 0 }] },
    ],
    { x: hoursAxis(8, 17, { label: "Clock" }), y: namesAxis("", ["planned", "baked"]) },
  ),
}

test.each(Object.entries(every))("%s are drawn as the numbers say", async (_, plot) => {
  const figure = await figureOf(plot)

  expect(drawnIn(figure).series).toHaveLength(plot.series.length)
  expect(disagreements(figure, figure)).toEqual([])
})

test("a number that is not the drawn one is found", async () => {
  const figure = await figureOf(plotOf([dots, fit]))
  const cell = figure.querySelectorAll("td").find(({ text }) => text.startsWith("240"))!
  cell.set_content("245.0")

  expect(disagreements(figure)).toHaveLength(1)
})

const value = (min: number, max: number) => fc.double({ min, max, noNaN: true })
test("whatever is measured, drawing and numbers are the same", async () => {
  const points = fc.array(fc.record({ x: value(-40, 300), y: value(-900, 4000) }), { minLength: 1, maxLength: 40 })
  const kinds = fc.constantFrom<Series["kind"]>("dots", "line")
  await fc.assert(
    fc.asyncProperty(fc.array(fc.record({ points, kind: kinds }), { minLength: 1, maxLength: 4 }), async (some) => {
      const series = some.map((one, nth): Series => ({ ...one, name: `line ${nth}`, role: "own" }))
      expect(disagreements(await figureOf(plotOf(series)))).toEqual([])
    }),
    { numRuns: 60 },
  )
})

test("temperatures are read in the unit of whoever reads, drawing and numbers alike", async () => {
  const figure = await figureOf(plotOf([dots]), "F")

  expect(wordsOf(figure)).toContain("Dough, °F")
  expect(disagreements(figure)).toEqual([])
  expect(drawnIn(figure).series[0]!.points[0]!.x).toBeCloseTo(66.92, 1)
})

test("what lies outside the axes is counted, and stays in the numbers", async () => {
  const figure = await figureOf(plotOf([dots], { y: niceAxis(200, 350, minutes) }))

  expect(wordsOf(figure)).toContain("One point lies outside the drawing")
  expect(drawnIn(figure).series[0]!.points).toHaveLength(2)
  expect(wordsOf(figure.querySelector(".not-drawn"))).toContain("412")
  expect(disagreements(figure)).toEqual([])
})

test.each<[string, PlotAxis, string[]]>([
  ["a rise", niceAxis(0, 68, { label: "Rise", unit: "%" }), ["0", "20", "40", "60", "80"]],
  ["tenths", niceAxis(-0.12, 0.31, { label: "pH", unit: "" }), ["−0.2", "−0.1", "0.0", "0.1", "0.2", "0.3", "0.4"]],
  ["one value", niceAxis(5, 5, { label: "Rise", unit: "%" }), ["4.4", "4.6", "4.8", "5.0", "5.2", "5.4", "5.6"]],
])("the axis of %s has round ticks", (_, { ticks }, labels) => {
  expect(ticks.map(({ label }) => label)).toEqual(labels)
})

test("an axis by the clock goes on past midnight", () => {
  const axis = hoursAxis(21.5, 27, { label: "Clock" })

  expect(axis.ticks.map(({ label }) => label)).toContain("23:00")
  expect(valueWords(26.25, axis)).toBe("02:15 +1 day")
  expect(valueWords(-1.5, axis)).toBe("22:30 −1 day")
})

test("nothing infinite becomes an axis", () => {
  expect(() => niceAxis(0, Number.POSITIVE_INFINITY, minutes)).toThrow(RangeError)
})
