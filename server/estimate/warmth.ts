import { usualRetardC } from "../dough/fermentation/end-points.ts"
import {
  type CurvePoint,
  doughCurve,
  heldOver,
  movingToward,
  type Span,
  type Surroundings,
} from "../dough/fermentation/temperature-curve.ts"
import {
  asAWhole,
  assumedSdC,
  type Doubt,
  doubtsOf,
  errorsOf,
  type GivenC,
  measuredSdC,
  settlingHours,
} from "../dough/fermentation/temperature-doubt.ts"
import type { Known, ReadingKind } from "../schema.ts"
import type { Marked, Rising } from "./rising.ts"

export type Read = {
  kind: ReadingKind
  takenAt: Date
  takenAboutMin: number | null
  known: Known
  of: string
  value: number | null
  typed: string
}

/**
 * How warm the dough is, from before it began to rise to `until`, and where it stands from then on. `from` says whose
 * temperatures these are, `given` how many of them there are, and `measured` how many of those were.
 */
export type Warmth = {
  from: "dough" | "room" | "plan"
  given: number
  measured: number
  curve: CurvePoint[]
  doubts: Doubt[]
  /** The errors of the dough's own temperatures. */
  errors: GivenC[]
  surroundings?: Surroundings
  inFridge: boolean
}

/** How far a temperature may be off that is not measured, °C, one standard deviation. Our own judgement. */
export const sdOf: Record<Known, number> = { measured: measuredSdC, assumed: assumedSdC, felt: 2.5 }
/** A dough against the room it stands in, °C, one standard deviation: it comes from mixing, and may stand in a corner. Our own judgement. */
export const roomForDoughSdC = 1.5
// A dough's temperature taken this long before it began to rise is still that dough's. Our own choice.
const beforeMs = 3_600_000
// Colder is no dough. The limit of fermentation/growth.ts.
const coldestC = -5

type Asked = { rising: Rising; marks: Marked[]; readings: Read[]; until: Date; targetDoughC: number | null }

/** Dough temperatures where there are any, else the room's, else the plan's; undefined where nobody said any. */
export function warmthOf({ rising, marks, readings, until, targetDoughC }: Asked): Warmth | undefined {
  const taken = (kind: ReadingKind, fromMs = Number.NEGATIVE_INFINITY) =>
    readings.filter(
      (one) =>
        one.kind === kind &&
        one.value !== null &&
        one.value >= coldestC &&
        +one.takenAt >= fromMs &&
        one.takenAt <= until,
    )
  const dough = taken("dough", +rising.metAt - beforeMs)
  const room = taken("room", +rising.metAt - longestRoomMs)
  const plannedC =
    rising.stages.find(({ referenceC }) => referenceC !== undefined)?.referenceC ?? targetDoughC ?? undefined
  const cold = coldSpans(rising, marks, taken("fridge"), until)
  const inFridge = cold.some(({ endsAt }) => +endsAt === +until)

  const from = dough.length ? "dough" : room.length ? "room" : "plan"
  const points = from === "plan" ? [] : from === "dough" ? dough : room
  const read =
    from === "plan" && plannedC !== undefined
      ? [{ at: rising.metAt, doughC: plannedC, known: "assumed" as const }]
      : points.map(pointOf)
  if (!read.length) return undefined
  const outAgain = !inFridge && cold.some(({ endsAt }) => points.every(({ takenAt }) => takenAt < endsAt))
  const kitchenC = room.at(-1)?.value ?? plannedC ?? points.at(-1)?.value ?? undefined
  const standsC = inFridge
    ? cold.at(-1)?.surroundingsC
    : outAgain
      ? kitchenC
      : from === "dough"
        ? roomFor(dough, room)
        : undefined
  const surroundings = standsC === undefined ? undefined : { surroundingsC: standsC, tauHours: settlingHours }
  return {
    ...{ from, inFridge, given: points.length, measured: points.filter(({ known }) => known === "measured").length },
    curve: curveTo(until, rising.metAt, doughCurve(read, cold), inFridge ? undefined : surroundings),
    doubts: doubtsIn(from, points, rising.metAt),
    errors: from === "dough" ? points.map(errorOf) : [],
    ...(surroundings ? { surroundings } : {}),
  }
}
// A room's temperature from the day before says nothing of today's. Our own choice.
const longestRoomMs = 12 * 3_600_000

const pointOf = ({ takenAt, value, known }: Read) => ({
  at: takenAt,
  doughC: value!,
  known: known === "measured" ? ("measured" as const) : ("assumed" as const),
})

const errorOf = ({ takenAt, known }: Read): GivenC => ({ at: takenAt, sdC: sdOf[known] })

function doubtsIn(from: Warmth["from"], points: Read[], startsAt: Date): Doubt[] {
  const given = points.map(errorOf)
  if (from === "dough") return doubtsOf([], startsAt, given)
  if (from === "plan") return [asAWhole(startsAt, assumedSdC)]
  return [...errorsOf(given), asAWhole(startsAt, roomForDoughSdC)]
}

/** The curve as far as it reaches, then toward the surroundings or held, and held back to the start. */
function curveTo(
  until: Date,
  startsAt: Date,
  curve: CurvePoint[],
  surroundings: Surroundings | undefined,
): CurvePoint[] {
  const reached = curve.filter(({ at }) => at <= until)
  const last = reached.at(-1)
  const further = last && surroundings ? movingToward(last, surroundings, until) : []
  const all = [...reached, ...further.slice(1)]
  return heldOver(all.length ? all : curve, startsAt, until)
}

/** The room that a measured dough goes toward; undefined where the dough stayed away from it, as in a warm box. */
function roomFor(dough: Read[], room: Read[]): number | undefined {
  const roomC = room.at(-1)?.value ?? undefined
  const [before, last] = [dough.at(-2)?.value ?? undefined, dough.at(-1)!.value!]
  if (roomC === undefined || before === undefined) return roomC
  const near = Math.abs(last - roomC) <= 1.5
  return near || Math.abs(last - roomC) < Math.abs(before - roomC) - 0.3 ? roomC : undefined
}

type Cold = Span & { surroundingsC: number }

/** When the rising dough was in the fridge: its retards, and the pauses in which somebody read a fridge. */
function coldSpans({ stages }: Rising, marks: Marked[], fridges: Read[], until: Date): Cold[] {
  return marks
    .filter(({ startedAt }) => startedAt < until)
    .flatMap((mark) => {
      const stage = stages.find(({ key }) => key === mark.stageKey)
      if (!stage) return []
      const spans = mark.pauses.map(({ from, to }) => ({ startsAt: new Date(from), endsAt: to ? new Date(to) : until }))
      const readIn = (span: { startsAt: Date; endsAt: Date }) =>
        fridges.findLast(({ takenAt }) => takenAt >= span.startsAt && takenAt <= span.endsAt)?.value ?? undefined
      const paused = spans.flatMap((span) =>
        readIn(span) === undefined ? [] : [{ ...span, surroundingsC: readIn(span)! }],
      )
      if (stage.kind !== "retard") return paused
      const whole = { startsAt: mark.startedAt, endsAt: mark.endedAt ?? until }
      return [{ ...whole, surroundingsC: readIn(whole) ?? stage.referenceC ?? usualRetardC }]
    })
    .map((span) => ({ ...span, endsAt: span.endsAt < until ? span.endsAt : until, cold: true }))
    .filter(({ startsAt, endsAt }) => endsAt > startsAt)
    .sort((a, b) => +a.startsAt - +b.startsAt)
}
