import { namesAxis, niceAxis } from "../plots/axes.ts"
import type { Plot } from "../plots/plot.ts"
import { areaOf, type Measured } from "./numbers.ts"

// Each class twice as large as the one before, about 4 mm² as one edge: sizes of cells spread over powers of ten.
const edgesMm2 = [0.25, 0.5, 1, 2, 4, 8, 16, 32, 64]
const edgesPerMille = [0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4, 12.8]

/** How many cells there are of each size, and how much of the visible cell area they hold; cells cut by the edge left out. */
export function sizesPlot(crumb: Measured): Plot | undefined {
  const whole = crumb.cells.filter(([, , , cut]) => cut === 0).map(([, , areaPx]) => areaPx)
  if (whole.length === 0) return undefined
  const { mmPerPx } = crumb
  const [edges, unit] = mmPerPx === null ? [edgesPerMille, "‰ of the area"] : [edgesMm2, "mm²"]
  const by = mmPerPx === null ? 1000 / areaOf(crumb) : mmPerPx ** 2
  const sums = Array.from({ length: edges.length + 1 }, () => ({ cells: 0, area: 0 }))
  for (const size of whole) {
    const at = sums[edges.filter((edge) => size * by >= edge).length]!
    at.cells++
    at.area += size
  }
  const total = whole.reduce((sum, size) => sum + size, 0)
  const [first, last] = [sums.findIndex(({ cells }) => cells > 0), sums.findLastIndex(({ cells }) => cells > 0)]
  const shown = sums.slice(first, last + 1)
  const names = shown.map((_, i) => nameOf(edges, first + i))
  const shares = shown.map(({ cells, area }) => ({ cells: (100 * cells) / whole.length, area: (100 * area) / total }))
  const most = shares.reduce((best, one, i) => (one.area > shares[best]!.area ? i : best), 0)
  const high = Math.max(...shares.flatMap(({ cells, area }) => [cells, area]))
  return {
    title: "How large the cells are",
    says: `Cells of ${names[most]} ${unit} hold most of the visible cell area, ${Math.round(shares[most]!.area)} %; they are ${Math.round(shares[most]!.cells)} % of the cells.`,
    x: { ...namesAxis(`Size, ${unit}`, names) },
    y: niceAxis(0, high, { label: "Share", unit: "%", digits: 0 }),
    series: [
      { name: "of the cells", kind: "bar", role: "other", points: shares.map(({ cells }, x) => ({ x, y: cells })) },
      {
        name: "of the visible cell area",
        kind: "bar",
        role: "own",
        points: shares.map(({ area }, x) => ({ x, y: area })),
      },
    ],
    turned: true,
    foot: "Whole cells only: of one that the area’s edge cuts, nobody knows how large it is.",
  }
}

function nameOf(edges: number[], at: number) {
  if (at === 0) return `below ${edges[0]}`
  if (at === edges.length) return `${edges.at(-1)} and more`
  return `${edges[at - 1]} to ${edges[at]}`
}
