import { median } from "simple-statistics"
import type { CauseKey, Causes } from "../causes/bake-causes.ts"
import { type Answer, enough } from "../statistics/answer.ts"
import { modifiedZ, outlierZ } from "../statistics/spread.ts"
import { fewestBakes, tooFewOf } from "./limits.ts"

/** One bake of a class whose lead can be told. */
export type Led = { key: string; causes: Extract<Causes, { enough: true }> }

/** A bake whose lead lies far from the class's, with the cause that set it apart, `min` more than the class's middle, if one did. */
export type Apart = { key: string; z: number; leadMin: number; reason?: { key: CauseKey; min: number } }

/**
 * The bakes whose modified z lies beyond 3.5 (see modifiedZ), each with the largest of its causes against the class's own
 * middle; with no reason where that carries less than half of the distance. Not enough to say of fewer than five bakes, or
 * where more than half have the same lead.
 */
export function standApart(bakes: Led[]): Answer<{ middleMin: number; apart: Apart[] }> {
  if (bakes.length < fewestBakes) return tooFewOf(bakes.length, fewestBakes, "such bakes")
  const leads = bakes.map(({ causes }) => causes.leadMin)
  const scores = modifiedZ(leads)
  if (!scores.enough) return scores
  const middleMin = median(leads)
  const apart = bakes.flatMap((bake, at): Apart[] => {
    const z = scores.value[at]!
    if (Math.abs(z) <= outlierZ) return []
    const leadMin = leads[at]!
    const reason = reasonFor(bake, bakes, leadMin - middleMin)
    return [{ key: bake.key, z, leadMin, ...(reason ? { reason } : {}) }]
  })
  return enough({ middleMin, apart: apart.sort((a, b) => Math.abs(b.z) - Math.abs(a.z)) })
}

function reasonFor({ causes }: Led, bakes: Led[], offMin: number) {
  const beyond = causes.shares.map(({ key, min }) => ({ key, min: min - middleShare(bakes, key) }))
  const [largest] = beyond.filter(({ min }) => min * offMin > 0).sort((a, b) => Math.abs(b.min) - Math.abs(a.min))
  return largest && Math.abs(largest.min) >= Math.abs(offMin) * leastOfIt ? largest : undefined
}
// Our own judgement: what carries less than half of the distance does not explain it.
const leastOfIt = 0.5

/** The middle of a cause's minutes among the bakes in which it is known; 0 for none. */
export function middleShare(bakes: Led[], of: CauseKey): number {
  const known = bakes.flatMap(({ causes }) => causes.shares.filter(({ key }) => key === of).map(({ min }) => min))
  return known.length ? median(known) : 0
}
