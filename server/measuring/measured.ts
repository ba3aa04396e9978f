import {
  type Area,
  type Grey,
  type MeasuredCrumb,
  measureCrumb,
  type Outlines,
  outlinePath,
  suggestArea,
} from "../crumb/measure.ts"
import type { KeptCell, KeptCrumb } from "./kept.ts"

type Told = { area: Area | null; acrossMm: number | null }
type Kept = Exclude<KeptCrumb, { kind: "measured" }> | Omit<Extract<KeptCrumb, { kind: "measured" }>, "even">

/** What is kept of a crumb, measured within the area that was marked or, where none was, within the one suggested. */
export function measured(grey: Grey, { area: told, acrossMm }: Told): Kept {
  const area = [...(told ?? suggestArea(grey))]
  const mmPerPx = acrossMm === null ? undefined : acrossMm / grey.width
  const found = measureCrumb(grey, area, { mmPerPx })
  if (found.kind === "cannot") return { ...found, area }
  const { features, scaled = null, visibleCellShareRange: shareRange, cautions } = found
  return {
    ...{ kind: "measured", area, widthPx: grey.width, heightPx: grey.height, mmPerPx: mmPerPx ?? null },
    ...{ features, scaled, shareRange, cautions },
    cells: found.cells.map(({ x, y, areaPx, edgePx }): KeptCell => [tenth(x), tenth(y), areaPx, edgePx > 0 ? 1 : 0]),
    ...drawn(found),
  }
}
const tenth = (value: number) => Math.round(value * 10) / 10

// What a phone draws at once and a slow network brings: about 30 kB. Our own choice.
const mostOutlines = 400

/** The outlines of the largest cells. */
function drawn({ cells, outlines: { starts, corners } }: MeasuredCrumb) {
  const largest = cells
    .map(({ areaPx }, i) => ({ areaPx, i }))
    .sort((a, b) => b.areaPx - a.areaPx)
    .slice(0, mostOutlines)
    .map(({ i }) => corners.subarray(starts[i]!, starts[i + 1]!))
  const some: Outlines = { starts: new Int32Array(largest.length + 1), corners: new Float32Array(0) }
  for (const [i, one] of largest.entries()) some.starts[i + 1] = some.starts[i]! + one.length
  some.corners = Float32Array.from(largest.flatMap((one) => [...one]))
  return { outlines: outlinePath(some), outlined: largest.length }
}
