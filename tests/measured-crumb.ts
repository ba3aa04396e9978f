import type { KeptCrumb } from "../server/measuring/kept.ts"

/** A hundred cells in rows of ten, ten pixels apart, within a square of 200 by 200 pixels. */
export const measuredCrumb: Extract<KeptCrumb, { kind: "measured" }> = {
  kind: "measured",
  area: [
    { x: 0.25, y: 0.25 },
    { x: 0.5, y: 0.25 },
    { x: 0.5, y: 0.6 },
    { x: 0.25, y: 0.6 },
  ],
  ...{ widthPx: 800, heightPx: 600, mmPerPx: 0.25, shareRange: [0.38, 0.43], cautions: [] },
  features: { visibleCellShare: 0.4, wholeCells: 100, cutCells: 0, cellsPerHeightSquared: 120, topToBottom: 1.3 },
  scaled: { cellsPerCm2: 36, largestCellMm2: 22, medianCellMm2: 1.25 },
  cells: Array.from({ length: 100 }, (_, i) => [215 + 10 * (i % 10), 165 + 10 * Math.floor(i / 10), 20 + i, 0]),
  ...{ outlines: "M215 165l4 0 0 4z", outlined: 1, even: { left: 200, top: 150, width: 200, height: 210 } },
}
