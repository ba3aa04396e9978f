import type { KeptCrumb } from "../measuring/kept.ts"

export type Measured = Extract<KeptCrumb, { kind: "measured" }>
/** One number with its unit, what it is, and a plain sentence about it; `of` tells it apart where crumbs are compared. */
export type CrumbNumber = { of: string; name: string; value: string; says: string; bare?: number; unit?: string }

/** The numbers that say most first; what needs a scale comes with one, and without it what needs none. */
export function numbersOf(crumb: Measured): CrumbNumber[] {
  const { features: f, scaled: s } = crumb
  const areaPx = areaOf(crumb)
  return [
    number(
      "visible cell area",
      100 * f.visibleCellShare,
      "%",
      1,
      `Of the marked crumb so much is cell that this photo can show, from ${percent(crumb.shareRange[0])} to ${percent(crumb.shareRange[1])} % as the limit between cell and wall moves a little. Bread holds more gas than that, in cells too small to see.`,
    ),
    s
      ? number(
          "cells per cm²",
          s.cellsPerCm2,
          "per cm²",
          0,
          `${f.wholeCells} whole cells and ${f.cutCells} cut by the edge of the area, each of which counts half.`,
        )
      : number(
          "cells in a square as high as the area",
          f.cellsPerHeightSquared,
          "",
          0,
          `${f.wholeCells} whole cells and ${f.cutCells} cut by the edge. Two photos compare only when the areas are the same part of the slice.`,
        ),
    s
      ? number("middle cell", s.medianCellMm2, "mm²", 2, "Half of the cells are smaller than this, half are larger.")
      : number(
          "middle cell",
          perMille(f.medianCellPx, areaPx),
          "‰ of the area",
          2,
          "Half of the cells are smaller than this, half are larger.",
        ),
    s
      ? number("mean cell", s.meanCellMm2, "mm²", 2, "The mean lies above the middle where a few cells are large.")
      : number(
          "mean cell",
          perMille(f.meanCellPx, areaPx),
          "‰ of the area",
          2,
          "The mean lies above the middle where a few cells are large.",
        ),
    s
      ? number("largest cell", s.largestCellMm2, "mm²", 0, "Of those that lie whole within the area.")
      : number(
          "largest cell",
          f.largestCellShare && 100 * f.largestCellShare,
          "% of the area",
          1,
          "Of those that lie whole within the area.",
        ),
    number(
      "cell area in the largest 5 % of cells",
      f.voidInLargest5Percent && 100 * f.voidInLargest5Percent,
      "%",
      0,
      "The more, the more the crumb lives from a few large cells.",
    ),
    number(
      "unevenness of sizes",
      f.gini,
      "",
      2,
      "0 when all cells are alike, toward 1 when a few hold nearly everything (the Gini index of cell areas).",
    ),
    number("top against bottom", f.topToBottom, "×", 2, upsideWords(f.topToBottom)),
    number(
      "inside against outside",
      f.centreToEdge,
      "×",
      2,
      "Visible cell area in the inner half of the marked area by that in the outer half.",
    ),
    number(
      "way through a wall",
      s?.wallMm,
      "mm",
      2,
      "The mean way from one cell to the next along rows and columns. Longer than a wall is thick, because walls are met aslant: compare it with other crumbs only.",
    ),
    number("small cells to large", s?.smallToLarge, "to 1", 1, "Cells below 4 mm² for each larger one."),
    number("length of a cell by its width", f.axisRatio, "to 1", 2, lieWords(f.lieRad, f.lieStrength)),
    number("roundness", f.circularity, "", 2, "1 for a circle, less where cells are drawn out or ragged."),
  ].filter((one) => one !== undefined)
}

function number(
  of: string,
  value: number | undefined | null,
  unit: string,
  digits: number,
  says: string,
): CrumbNumber | undefined {
  if (value === undefined || value === null) return undefined
  const name = of[0]!.toUpperCase() + of.slice(1)
  return { of, name, value: `${value.toFixed(digits)}${unit && ` ${unit}`}`, says, bare: value, unit }
}

/** The pixels of the marked area, by the shoelace formula. */
export function areaOf({ area, widthPx, heightPx }: Measured) {
  const twice = area.reduce((sum, a, i) => {
    const b = area[(i + 1) % area.length]!
    return sum + (a.x * b.y - b.x * a.y)
  }, 0)
  return (Math.abs(twice) / 2) * widthPx * heightPx
}
const percent = (share: number) => (100 * share).toFixed(1)
const perMille = (px: number | undefined, areaPx: number) => px && (1000 * px) / areaPx

// Within this a difference between halves says nothing: our own judgement, from drawn crumbs that are alike throughout.
const alike = 0.08
function upsideWords(ratio: number | undefined) {
  const what = "Visible cell area in the upper half of the marked area by that in the lower half"
  if (ratio === undefined) return `${what}.`
  if (Math.abs(ratio - 1) < alike) return `${what}: about the same.`
  return `${what}: more open ${ratio > 1 ? "above" : "below"}.`
}

function lieWords(rad: number | undefined, strength: number | undefined) {
  if (rad === undefined || strength === undefined || strength < 0.3) return "The cells lie no one way."
  const degrees = Math.round((rad * 180) / Math.PI)
  const way =
    Math.abs(degrees) < 20
      ? "level"
      : Math.abs(degrees) > 70
        ? "upright"
        : degrees > 0
          ? "falling to the right"
          : "rising to the right"
  return `Most of the drawn-out cells lie ${way}.`
}

/** The largest whole cells, with where they lie in the area. */
export function largestOf({ cells, area, mmPerPx, widthPx, heightPx }: Measured, most = 5) {
  const [xs, ys] = [area.map(({ x }) => x * widthPx), area.map(({ y }) => y * heightPx)]
  const within = (value: number, all: number[]) => (value - Math.min(...all)) / (Math.max(...all) - Math.min(...all))
  return cells
    .filter(([, , , cut]) => cut === 0)
    .toSorted((a, b) => b[2] - a[2])
    .slice(0, most)
    .map(([x, y, areaPx]) => ({
      size: mmPerPx === null ? `${areaPx} px` : `${(areaPx * mmPerPx ** 2).toFixed(1)} mm²`,
      across:
        mmPerPx === null ? "" : `${(2 * Math.sqrt(areaPx / Math.PI) * mmPerPx).toFixed(1)} mm across if it were round`,
      where: `${third(within(y, ys), ["upper", "middle", "lower"])} third, ${third(within(x, xs), ["left", "middle", "right"])}`,
    }))
}
const third = (share: number, names: [string, string, string]) =>
  names[Math.min(2, Math.max(0, Math.floor(share * 3)))]!
