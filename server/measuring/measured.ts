import { cutOut } from "../crumb/area.ts"
import { featuresOf, scaledFeatures } from "../crumb/features.ts"
import { findCells } from "../crumb/find-cells.ts"
import { outline, outlineLengths, outlinePath } from "../crumb/outlines.ts"
import type { Grey, Spot } from "../crumb/picture.ts"
import type { KeptCell, KeptCrumb } from "./kept.ts"

// STAND-IN until the core is there
const suggested: Spot[] = [
  { x: 0.28, y: 0.35 },
  { x: 0.72, y: 0.35 },
  { x: 0.72, y: 0.8 },
  { x: 0.28, y: 0.8 },
]
type Told = { area: readonly Spot[] | null; acrossMm: number | null }

export function measured(grey: Grey, { area: told, acrossMm }: Told): KeptCrumb {
  const area = [...(told ?? suggested)]
  const piece = cutOut(grey, area)
  const found = findCells(piece)
  if (!found || found.cells.length < 5)
    return {
      kind: "cannot",
      area,
      reasons: [{ code: "no-cells", words: "No cells could be told from walls.", help: "Light from the side." }],
    }
  const { labels, cells } = found
  const { width, height } = piece.grey
  const outlines = outline({ width, height, labels, count: cells.length })
  const features = featuresOf({ piece, labels, cells, outlinesPx: outlineLengths(outlines) })
  const mmPerPx = acrossMm === null ? null : acrossMm / grey.width
  const kept = cells.map(
    ({ x, y, areaPx, edgePx }): KeptCell => [
      Math.round(x + piece.left),
      Math.round(y + piece.top),
      areaPx,
      edgePx > 0 ? 1 : 0,
    ],
  )
  return {
    ...{ kind: "measured", area, widthPx: grey.width, heightPx: grey.height, mmPerPx, features },
    scaled: mmPerPx === null ? null : scaledFeatures(cells, features, piece.areaPx, mmPerPx),
    flags: [],
    cells: kept,
    outlines: outlinePath(outlines),
    outlined: cells.length,
    even: { left: 0, top: 0, width: 0, height: 0 },
  }
}
