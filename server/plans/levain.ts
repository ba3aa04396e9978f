import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import type { Figures } from "../dough/formula/formula.ts"
import type { Stage } from "../dough/schedule.ts"
import { isLevain } from "../estimate/rising.ts"
import type { FormulaContent } from "../formulas/content.ts"

/** How a formula's levain is fed: ripe starter, flour and water in parts of the starter. */
export function writtenFeeding({ parts }: FormulaContent, figures: Figures): Ratio | undefined {
  const feedings = parts.map((part, at) => (part.goesInto ? feedingOf(figures.parts[at]!) : undefined))
  return feedings.find((feeding) => feeding !== undefined)
}

function feedingOf({ lines }: Figures["parts"][number]): Ratio | undefined {
  const of = (what: "starter" | "flour" | "water") =>
    lines
      .filter(({ counted, countsAs }) => counted && countsAs === what)
      .reduce((sum, { g }) => sum + (g ? (g.low + g.high) / 2 : 0), 0)
  const [starter, flour, water] = [of("starter"), of("flour"), of("water")]
  return starter > 0 && flour > 0 ? { starter: 1, flour: flour / starter, water: water / starter } : undefined
}

/** The stage in which the levain ripens: of those before the dough is mixed that are named after it, the longest. */
export function levainStage(stages: Stage[]): Stage | undefined {
  const mixed = stages.findLastIndex(({ kind }) => kind === "mix")
  return stages
    .slice(0, Math.max(mixed, 0))
    .filter((stage) => isLevain(stage) && stage.kind !== "mix")
    .toSorted((a, b) => b.highMin - a.highMin)[0]
}
