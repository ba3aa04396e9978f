import type { Say } from "../accounts/say.ts"
import type { Causes } from "../dough/causes/bake-causes.ts"
import { causeNames, rangeIn } from "../table/cause-words.ts"

/** Each cause's share of a bake's lead over its plan as a table shows it, the largest first; none where there is not enough to say. */
export function sharesIn(causes: Causes, say: Say) {
  if (!causes.enough) return []
  return causes.shares.map((share) => ({
    name: capital(causeNames[share.key]),
    minutes: `${share.min > 0 ? "+" : ""}${say.minutes(share.min)}`,
    range: rangeIn(share, say),
    percent: share.percent === undefined ? "–" : `${Math.round(share.percent)} %`,
  }))
}
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
