import type { Say } from "../accounts/say.ts"
import type { Causes } from "../dough/causes/bake-causes.ts"
import { causeIn, causesIn, leadIn, leastMin } from "../table/cause-words.ts"

/** What a bake's lead over its plan came from: the lead itself, each share with its per cent, and what could not be known. */
export function sharesIn(causes: Causes, say: Say) {
  if (!causes.enough) return { lead: causes.why, shares: [], left: [] }
  const worth = causes.shares.filter(({ min }) => Math.abs(min) >= leastMin)
  const lead = leadIn(causes.leadMin, say)
  return {
    lead: `${lead.charAt(0).toUpperCase()}${lead.slice(1)}.`,
    shares: worth.map((share) => ({
      percent: share.percent === undefined ? "" : `${Math.round(share.percent)} %`,
      width: share.percent ?? 0,
      words: causeIn(share, causes, say),
    })),
    left: causesIn(causes, say).slice(1 + worth.length),
  }
}
