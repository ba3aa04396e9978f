import type { BakeDay } from "../bake-days/queries.ts"
import { type Apart, type Led, standApart } from "../dough/class-picture/apart.ts"
import { type Explained, explainedSpread } from "../dough/class-picture/explained.ts"
import { fewestBakes, tooFewOf } from "../dough/class-picture/limits.ts"
import { lineThrough, type RobustLine } from "../dough/class-picture/line.ts"
import { type Against, type Proposal, proposalsFor } from "../dough/class-picture/proposals.ts"
import { sharedDifference } from "../dough/class-picture/shared.ts"
import { type Answer, enough } from "../dough/statistics/answer.ts"
import type { Raised } from "../estimate/leaven.ts"
import type { Row } from "../table/row.ts"

/** One bake of the class, by name, with its row and the flours it was made of. */
export type ClassBake = { key: string; name: string; row: Row; flour: string }

/** A bake beside the line of time against temperature, or why it is not. */
export type TimedBake = { name: string; c: number; hours: number }
export type Timed = { bakes: TimedBake[]; left: { name: string; why: string }[]; line: Answer<RobustLine> }

export type ClassPicture = {
  atOven: number
  /** Those whose lead can be told, the furthest on first. */
  led: (Led & { name: string; flour: string; row: Row })[]
  /** Those at the oven whose lead cannot be told. */
  untold: { name: string; why: string }[]
  timed: Timed
  explained: Answer<Explained>
  apart: Answer<{ middleMin: number; apart: Apart[] }>
  against: Against
  proposals: Proposal[]
}

/** What a bake day's bakes show together; too few of them show nothing. */
export function pictureOf(
  bakes: ClassBake[],
  { content, targetRise }: Pick<BakeDay, "content" | "targetRise">,
  raised: Raised,
): Answer<ClassPicture> {
  const over = bakes.filter(({ row }) => row.state === "over")
  const led = over.flatMap((bake) => (bake.row.causes.enough ? [{ ...bake, causes: bake.row.causes }] : []))
  if (led.length < fewestBakes) return tooFewOf(led.length, fewestBakes, "bakes have come to the oven with their times")
  const against = againstPlan(led, content.stages)
  return enough({
    atOven: over.length,
    led: led.sort((a, b) => b.causes.leadMin - a.causes.leadMin),
    untold: over.flatMap(({ name, row }) => (row.causes.enough ? [] : [{ name, why: row.causes.why }])),
    timed: timedOf(over),
    explained: explainedSpread(led),
    apart: standApart(led),
    against,
    proposals: proposalsFor(against, {
      stages: content.stages,
      ...("leaven" in raised ? { leaven: raised.leaven } : {}),
      ...(targetRise ? { targetRise } : {}),
      wellRises: led.filter(({ row }) => row.verdict.call === "well").flatMap(({ row }) => measuredRise(row)),
    }),
  })
}

function timedOf(over: ClassBake[]): Timed {
  const bakes = over.flatMap(({ name, row: { toTarget } }) =>
    toTarget.enough && toTarget.value.of === "dough"
      ? [{ name, c: toTarget.value.meanC, hours: toTarget.value.min / 60 }]
      : [],
  )
  const left = over.flatMap(({ name, row: { toTarget } }) => {
    if (!toTarget.enough) return [{ name, why: toTarget.why }]
    return toTarget.value.of === "room" ? [{ name, why: "Only the room was measured, not the dough." }] : []
  })
  return { bakes, left, line: lineThrough(bakes.map(({ c, hours }) => ({ x: c, y: hours }))) }
}

function againstPlan(led: ClassPicture["led"], stages: BakeDay["content"]["stages"]): Against {
  const shared = (values: number[]) => {
    const difference = sharedDifference(values)
    return difference.enough ? difference.value : undefined
  }
  const lengths = (key: string) =>
    led.flatMap(({ row }) =>
      row.times.flatMap(({ stage, difference }) => (stage.key === key ? (difference ?? []) : [])),
    )
  const known = led.filter(({ causes }) => causes.leftAtPlan.every(({ key }) => key !== "temperature"))
  return {
    stages: stages.flatMap(({ key }) => {
      const difference = shared(lengths(key))
      return difference ? [{ key, difference }] : []
    }),
    temperature: shared(
      led.flatMap(({ row, causes }) => (row.warmth?.from === "dough" ? (causes.differed.c ?? []) : [])),
    ),
    lead: shared(known.map(({ causes }) => causes.leadMin)),
    rise: shared(led.flatMap(({ row }) => measuredRise(row).map((rise) => rise - (row.targetRise ?? rise)))),
    liveliness: shared(
      led.flatMap(({ causes }) => (causes.differed.activity === undefined ? [] : [Math.log(causes.differed.activity)])),
    ),
  }
}

const measuredRise = ({ rise }: Row) => (rise && rise.known !== "assumed" ? [rise.share] : [])
