import { connectedRuns } from "./components.ts"
import type { Mask } from "./picture.ts"

/**
 * The mask with its holes filled: regions of 0 that touch neither the picture's edge nor, at more than a corner, the
 * outside. Holes larger than `largestPx` pixels stay open. Exact.
 * A lit floor deep in a cell is such a hole; a wall all around which cells have run together is one too, and larger.
 */
export function fillHoles(mask: Mask, { largestPx = Number.POSITIVE_INFINITY } = {}): Mask {
  const { width, height } = mask
  const light = connectedRuns(mask, { of: 0, corners: false })
  const pixels = new Float64Array(light.regions + 1)
  const open = new Uint8Array(light.regions + 1)
  for (let i = 0; i < light.count; i++) {
    const region = light.region[i]!
    pixels[region]! += light.end[i]! - light.start[i]!
    if (light.start[i] === 0 || light.end[i] === width || light.row[i] === 0 || light.row[i] === height - 1) {
      open[region] = 1
    }
  }
  const data = mask.data.slice()
  for (let i = 0; i < light.count; i++) {
    const region = light.region[i]!
    if (open[region] !== 0 || pixels[region]! > largestPx) continue
    const row = light.row[i]! * width
    data.fill(1, row + light.start[i]!, row + light.end[i]!)
  }
  return { width, height, data }
}
