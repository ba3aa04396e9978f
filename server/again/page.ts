import type { FastifyRequest } from "fastify"
import { type Say, sayTo } from "../accounts/say.ts"
import { findBake } from "../bakes/queries.ts"
import { drawHill } from "../table/hill.ts"
import { listBakesOf } from "../table/queries.ts"
import { wordsFor } from "../table/words.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { compare } from "./compare.ts"
import { wayOf } from "./course.ts"
import { type Laid, laid } from "./laid.ts"
import { nextIn } from "./next.ts"
import { measuresOf, picturesOf, seenOf } from "./outcome.ts"
import { listEarlier } from "./queries.ts"
import type { Comparison } from "./thing.ts"

/** A later bake of a formula beside an earlier one by the same baker: what was changed, and what it did. */
export async function againPage(request: FastifyRequest) {
  const { db } = request.server
  const [viewer, now] = [viewerOf(request), new Date()]
  const say = sayTo(viewer)
  const bake = found(await findBake(db, idOf(request)))
  const earlier = await listEarlier(db, viewer, bake)
  const page = { bake, own: bake.userId === viewer.id, earlier }
  const { than } = request.query as { than?: unknown }
  const chosen = typeof than === "string" && than ? found(earlier.find(({ id }) => String(id) === than)) : earlier[0]
  if (!chosen) return { ...page, than: null }

  const both = await listBakesOf(db, { bakeIds: [chosen.id, bake.id] }, { viewer })
  const [one, other] = [chosen, bake].map(({ id }) => laid(found(both.find((row) => row.id === id)), now))
  const two = { earlier: one!, later: other! }
  const ways = { earlier: wayOf(two.earlier, now), later: wayOf(two.later, now) }
  const compared = compare(two, ways, say)
  return {
    ...page,
    than: chosen.id,
    sides: [sideOf(two.earlier, say), sideOf(two.later, say)],
    ...compared,
    counted: countWords(compared),
    whole: wholeIn(compared, say),
    shares: sharesIn(compared, say),
    next: nextIn(compared, two.later, ways.later, say),
    measures: measuresOf(two, say),
    seen: seenOf(two),
    pictures: picturesOf(two),
  }
}

function sideOf({ bake, row }: Laid, say: Say) {
  return {
    bake,
    day: say.dayAndTime(bake.onTableAt, bake.zone),
    words: wordsFor(row, bake.name, say, bake.zone),
    hill: "mean" in row.verdict ? drawHill(row.verdict) : null,
  }
}

const numbers = ["Nothing", "One thing", "Two things", "Three things", "Four things", "Five things", "Six things"]

/** How many things changed, and so what can be said of any of them. */
function countWords({ things, between }: Comparison) {
  const count = things.length
  const shared = things.some(({ hours }) => hours !== undefined)
  if (count === 0) return "Nothing that was logged changed. If the bread is another, the reason is not in the log."
  const changed = `${numbers[count] ?? `${count} things`} changed`
  if (count === 1)
    return `${changed}. What came out otherwise may be put down to it, as far as one pair of bakes can tell.`
  const share = "hours" in between && shared ? "; the share is the model’s, not seen" : ""
  return `${changed} at once${share}. Which of them made the bread another cannot be told from these two bakes.`
}

/** "40 min further on at the oven than the earlier one (0.7 reference hours)". */
function wholeIn({ between }: Comparison, say: Say) {
  if ("why" in between) return `What it did to fermentation cannot be reckoned. ${between.why}`
  const { hours } = between
  if (Math.abs(hours) < leastHours) return "At the oven the dough was as far as the earlier one."
  return `At the oven the dough was ${moved(hours, say)} than the earlier one, by the model.`
}
// Six minutes, less than anybody can tell. Our own judgement.
const leastHours = 0.1

const moved = (hours: number, say: Say) =>
  `${say.minutes(Math.abs(hours) * 60)} ${hours > 0 ? "further on" : "less far"} (${say.hours(Math.abs(hours))} reference hours)`

/** What each thing did, in words, and what the many small ones did together: all of it adds up to the whole. */
function sharesIn({ things, between }: Comparison, say: Say) {
  if ("why" in between) return { of: things.map(() => "not reckoned"), rest: "" }
  // as printed, so that the column adds up to the sentence under it
  const told = things.reduce((sum, { hours = 0 }) => sum + Math.round(hours * 60), 0)
  const rest = (Math.round(between.hours * 60) - told) / 60
  return {
    of: things.map(({ hours }) => (hours === undefined ? "not in the model" : shareIn(hours, say))),
    rest: rest === 0 ? "" : shareIn(rest, say),
  }
}

function shareIn(hours: number, say: Say) {
  const min = Math.round(Math.abs(hours) * 60)
  if (min === 0) return "nothing"
  return `${say.minutes(min)} ${hours > 0 ? "further on" : "less far"}`
}
