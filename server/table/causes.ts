import { bakeCauses, type Causes } from "../dough/causes/bake-causes.ts"
import type { Warmth } from "../dough/causes/hours.ts"
import { asAWhole, type Doubt, doubtsOf, errorsOf } from "../dough/fermentation/temperature-doubt.ts"
import { type Answer, enough, notEnough } from "../dough/statistics/answer.ts"
import { roomForDoughSdC, sdOf } from "../estimate/warmth.ts"
import type { Facts } from "./facts.ts"
import { legsOf } from "./legs.ts"
import type { Risen } from "./risen.ts"
import type { Log } from "./spans.ts"

/** What of a bake's lead over its plan each cause carries; see bakeCauses. */
export function causesOf(facts: Facts, log: Log, { liveliness }: Risen): Causes {
  const course = legsOf(facts, log)
  if ("why" in course) return { enough: false, why: course.why }
  const leavens = leavensOf(log, facts)
  if (leavens === "left out") return { enough: false, why: "It was made without what raises it." }
  return bakeCauses({ ...course, warmth: warmthOf(facts, course.legs[0]!.startsAt), leavens, liveliness })
}

function leavensOf({ raised }: Log, { changes }: Facts) {
  if (!raised) return notEnough("What raises it is not known.")
  const { planned, actual } = raised
  if ("why" in planned) return notEnough(planned.why)
  if (!("why" in actual)) return enough({ planned: planned.leaven, actual: actual.leaven })
  return changes.some(({ leaven, kind }) => leaven && kind === "left-out") ? "left out" : notEnough(actual.why)
}

function warmthOf({ warmth }: Facts, startsAt: Date): Answer<Warmth> {
  if (!warmth) return notEnough("Nobody measured dough or room.")
  return enough({ curve: warmth.curve, doubts: doubtsIn(warmth, startsAt) })
}

function doubtsIn({ from, points }: NonNullable<Facts["warmth"]>, startsAt: Date): Doubt[] {
  const given = points.map(({ at, known }) => ({ at, sdC: sdOf[known ?? "measured"] }))
  if (from === "dough") return doubtsOf([], startsAt, given)
  return [...errorsOf(given), asAWhole(startsAt, roomForDoughSdC)]
}
