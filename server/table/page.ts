import { type Say, sayTo } from "../accounts/say.ts"
import type { Stage } from "../dough/schedule.ts"
import { standingIn } from "../judgements/standing.ts"
import type { Viewer } from "../web/access.ts"
import { type Asked, addressOf, askedIn } from "./asked.ts"
import { type Axis, layAxis } from "./axis.ts"
import { choicesOf, pickedFrom } from "./choices.ts"
import { differingIn } from "./differing.ts"
import { grouped } from "./grouping.ts"
import { drawHill } from "./hill.ts"
import { type Laid, layBake } from "./laid.ts"
import { liningsOf } from "./linings.ts"
import { dots, points, thinned } from "./paths.ts"
import type { TableBake } from "./queries.ts"
import { drawRibbon } from "./ribbon.ts"
import { sorted } from "./sorting.ts"
import type { Subject } from "./subjects.ts"
import { timesTable } from "./times.ts"
import { traits } from "./traits.ts"
import { wordsFor } from "./words.ts"

/** Everything a table shows one person of some bakes, as its address asks. */
export function tablePage(bakes: TableBake[], subject: Subject, query: unknown, viewer: Viewer, now: Date) {
  const say = sayTo(viewer)
  const all = bakes.map((bake) => layBake(bake, now, say))
  const columns = traits.filter(({ key }) => key !== "day" || subject.kind !== "bake day")
  const choices = choicesOf(all, columns)
  const stages = allStages(subject.stages, all)
  const asked = askedIn(query, choices, [...stages.keys()])

  const picked = pickedFrom(all, asked.only)
  const { differing, same, unknown } = differingIn(picked, columns)
  const axis = layAxis(
    picked.map(({ row }) => row),
    asked.lined,
    subject.zone,
  )
  const items = sorted(picked, asked).map((item) => drawn(item, axis, say))
  return {
    ...{ subject, asked, choices, same, unknown, axis, items, count: all.length },
    differing: differing.filter(({ told }) => !told),
    drawn: { points, dots },
    groups: grouped(items, asked.by, say),
    linings: liningsOf(stages, subject, say),
    times: timesTable(items, [...stages.values()]),
    to: (change: Partial<Asked>) => `${subject.page}/table?${addressOf({ ...asked, ...change })}`,
  }
}

/** A bake as it is drawn and said on the table. */
function drawn(item: Laid, axis: Axis, say: Say) {
  const { row, bake, name } = item
  const ribbon = drawRibbon(row, axis)
  return {
    ...item,
    words: wordsFor(row, name, say, bake.zone),
    ribbon: { ...ribbon, dots: thinned(ribbon.dots) },
    hill: "mean" in row.verdict ? drawHill(row.verdict) : null,
    judged: standingIn(bake.judgements),
  }
}

/** All stages of these bakes by key, those of what the table is about first. */
function allStages(first: Stage[], all: Laid[]) {
  const stages = new Map(first.map((stage) => [stage.key, stage]))
  for (const { row } of all) for (const stage of row.stages) if (!stages.has(stage.key)) stages.set(stage.key, stage)
  return stages
}
