import type { Course, StretchKey } from "../dough/causes/between-bakes.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import { heldOver, meanDoughC } from "../dough/fermentation/temperature-curve.ts"
import type { StageKind } from "../dough/schedule.ts"
import { minutesBetween } from "../table/facts.ts"
import { legsOf } from "../table/legs.ts"
import { risenOf } from "../table/risen.ts"
import type { Laid } from "./laid.ts"

/** A bake's way to the oven, and how warm its dough was on it; or why that cannot be told. */
export type Way =
  | { course: Course; startsAt: Date; endsAt: Date; meanC?: number; of?: "dough" | "room"; livelySd?: number }
  | { why: string }

export function wayOf({ bake, row }: Laid, now: Date): Way {
  const told = legsOf(row, bake)
  if ("why" in told) return told
  const [startsAt, endsAt] = [told.legs[0]!.startsAt, told.legs.at(-1)!.endsAt]
  const curve = row.warmth && heldOver(row.warmth.curve, startsAt, endsAt)
  const { liveliness } = risenOf(bake, bake.content.stages, bake, now)
  const { actual } = bake.raised
  const stretches: Course["stretches"] = {}
  for (const { key, from, to } of piecesOf(row, startsAt, endsAt)) {
    const before = stretches[key] ?? { min: 0 }
    const min = before.min + minutesBetween(from, to)
    // what nobody measured goes at the other bake's pace, so that it makes no difference
    if (!curve) stretches[key] = { min }
    else {
      const hours = ((before.pace ?? 0) * before.min) / 60 + referenceHours(curve, from, to, row.culture)
      stretches[key] = { min, pace: (hours / min) * 60 }
    }
  }
  return {
    course: {
      stretches,
      ...("why" in actual ? {} : { leaven: actual.leaven }),
      ...(liveliness.enough ? { activity: liveliness.value.ratio } : {}),
    },
    ...{ startsAt, endsAt },
    ...(row.warmth && { meanC: meanDoughC(row.warmth.curve, startsAt, endsAt), of: row.warmth.from }),
    ...(liveliness.enough ? { livelySd: liveliness.value.sd } : {}),
  }
}

type Piece = { key: StretchKey; from: Date; to: Date }

/** From each marked start to the next; what lies between the end of the last stage and the oven is waiting. */
function piecesOf(row: Laid["row"], startsAt: Date, endsAt: Date): Piece[] {
  const spans = row.spans
    .filter((span) => span.startsAt >= startsAt && span.startsAt < endsAt && span.stage.kind !== "bake")
    .toSorted((a, b) => +a.startsAt - +b.startsAt)
  const first = spans[0]
  if (!first || first.startsAt > startsAt)
    return [{ key: "bulk", from: startsAt, to: first?.startsAt ?? endsAt }, ...rest()]
  return rest()

  function rest() {
    return spans.flatMap(({ stage, startsAt: from, endsAt: until, end }, at): Piece[] => {
      const next = spans[at + 1]?.startsAt ?? endsAt
      const key = stretchOf[stage.kind]
      const waits = at === spans.length - 1 && end === "marked" && until < next
      const to = waits ? until : next
      return [
        ...(to > from ? [{ key, from, to }] : []),
        ...(waits ? [{ key: "wait" as const, from: until, to: next }] : []),
      ]
    })
  }
}

const stretchOf: Record<StageKind, StretchKey> = {
  ...{ mix: "bulk", rest: "bulk", bulk: "bulk", fold: "bulk", divide: "shape", shape: "shape" },
  ...{ proof: "proof", retard: "retard", bake: "wait", cool: "wait" },
}
