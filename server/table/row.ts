import type { Causes } from "../dough/causes/bake-causes.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import type { Stage } from "../dough/schedule.ts"
import { type Verdict, verdictOf } from "../dough/verdict/verdict.ts"
import { bakeFactsOf } from "./bake-facts.ts"
import { causesOf } from "./causes.ts"
import { type Difference, differencesOf } from "./differences.ts"
import { type Facts, factsOf, type Targets } from "./facts.ts"
import { type Risen, risenOf } from "./risen.ts"
import type { Log } from "./spans.ts"

export type Row = Facts & { verdict: Verdict; differences: Difference[]; causes: Causes } & Pick<Risen, "toTarget">

/** Everything the table says about one bake; see factsOf. */
export function layRow(log: Log, stages: Stage[], targets: Targets, now: Date, culture?: Culture): Row {
  const facts = factsOf(log, stages, targets, now, culture)
  const risen = risenOf(log, stages, targets, now)
  const causes = causesOf(facts, log, risen)
  return {
    ...facts,
    ...{ verdict: judged(facts, log), differences: differencesOf(facts), causes, toTarget: risen.toTarget },
  }
}

/** A bake that has not come to the oven has no verdict yet: every fact would only say that it is early. */
function judged(facts: Facts, log: Log): Verdict {
  return verdictOf(facts.state === "over" ? bakeFactsOf(facts, log) : { stages: [], cues: [] })
}
