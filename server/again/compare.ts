import type { Say } from "../accounts/say.ts"
import { type Between, betweenBakes, type Course, differsAtAll, type Factor } from "../dough/causes/between-bakes.ts"
import type { Way } from "./course.ts"
import { formula } from "./formula-things.ts"
import type { Laid } from "./laid.ts"
import { oven } from "./oven-things.ts"
import type { Comparison, Known, Two, Ways } from "./thing.ts"
import { leaven, lively, marked, times, warmth } from "./way-things.ts"

/** Everything in which a later bake differed from an earlier one, what the model can share out first, the largest first. */
export function compare(two: Two, ways: Ways, say: Say): Comparison {
  const known =
    "course" in ways.earlier && "course" in ways.later ? { earlier: ways.earlier, later: ways.later } : undefined
  const courses = known && trimmed(known)
  const between = courses && two.earlier.row.culture === two.later.row.culture ? shared(courses) : { why: whyNot(ways) }
  const shares = "shares" in between ? between.shares : {}
  const inCourse = courses ? [...times(courses, say), ...lively(courses)] : marked(two, say)
  const modelled = [...inCourse, ...warmth(warmthsOf(two, ways), say), ...leaven(two, say)]
  const told = modelled.map((thing) => ({ ...thing, hours: shares[thing.key as Factor] ?? thing.hours }))
  const inOrder = told.toSorted((a, b) => Math.abs(b.hours ?? 0) - Math.abs(a.hours ?? 0))
  const otherwise = formula(two, say)
  return { things: [...inOrder, ...otherwise.things, ...oven(two, say)], between, remarks: otherwise.remarks }
}
const shared = ({ earlier, later }: { earlier: Course; later: Course }): Between =>
  differsAtAll(earlier, later) ? betweenBakes(earlier, later) : { hours: 0, shares: {} }

function whyNot({ earlier, later }: Ways) {
  if ("why" in later) return `Of this bake: ${later.why}`
  return "why" in earlier
    ? `Of the earlier bake: ${earlier.why}`
    : "Levain and yeast keep different clocks, so the two cannot be reckoned against each other."
}

/** How warm each dough was on its way; where that has no end yet, as far as it came. */
function warmthsOf({ earlier, later }: Two, ways: Ways) {
  const of = ({ row }: Laid, way: Way) => ("course" in way ? way : { meanC: row.warmth?.meanC, of: row.warmth?.from })
  return { earlier: of(earlier, ways.earlier), later: of(later, ways.later) }
}

/** Without a liveliness that the two jars cannot tell apart. */
function trimmed({ earlier, later }: { earlier: Known; later: Known }) {
  const apart = Math.abs(Math.log((later.course.activity ?? 1) / (earlier.course.activity ?? 1)))
  const doubt = Math.hypot(earlier.livelySd ?? 0, later.livelySd ?? 0)
  if (apart > doubt && earlier.livelySd !== undefined && later.livelySd !== undefined)
    return { earlier: earlier.course, later: later.course }
  const bare = ({ activity: _, ...course }: Course): Course => course
  return { earlier: bare(earlier.course), later: bare(later.course) }
}
