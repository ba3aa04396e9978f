import type { Say } from "../accounts/say.ts"
import type { WrittenLine, WrittenPart } from "../dough/formula/written.ts"
import type { Stage } from "../dough/schedule.ts"
import type { FormulaContent } from "../formulas/content.ts"

/** A line as one would write it: "60–90 g water, hold back". */
export function lineWords({ quantity, readAs, ingredient, note }: WrittenLine): string {
  const amount = readAs ? `${quantity} (taken as ${readAs})` : quantity
  return [[amount, ingredient].filter(Boolean).join(" "), note].filter(Boolean).join(", ")
}

export const partName = ({ name }: WrittenPart, at: number) => name || `Part ${at + 1}`
export const aroundName = "On and around it"

/** Where a part goes and what stays of it: "goes into Final dough, 6 % stays in its jar"; "" for a final dough. */
export function placeWords(part: WrittenPart, { parts }: Pick<FormulaContent, "parts">): string {
  const at = parts.findIndex(({ key }) => key === part.goesInto)
  if (at < 0) return ""
  const stays = `${part.staysPercent}${/^[\d.,]+$/.test(part.staysPercent) ? " %" : ""} stays in its jar`
  return [`goes into ${partName(parts[at]!, at)}`, part.staysPercent && stays].filter(Boolean).join(", ")
}

/** "4 h 30 min – 6 h at 24 °C, hands on for 10 min, warmer is quicker" */
export function timeWords(stage: Stage, say: Say): string {
  const lasts = stage.highMin ? say.minutesRange(stage.lowMin, stage.highMin) : "no time yet"
  return [
    stage.referenceC === undefined ? lasts : `${lasts} at ${say.temperature(stage.referenceC)}`,
    stage.handsOnMin && `hands on for ${say.minutes(stage.handsOnMin)}`,
    stage.drivenByTemperature && "warmer is quicker",
  ]
    .filter(Boolean)
    .join(", ")
}

/** "2 pieces of 900 g, ± 10 g"; "" where nobody said how many. */
export function makesWords({ pieces, pieceMass, pieceTolerance }: FormulaContent): string {
  if (!pieces) return ""
  const each = pieceMass ? ` of ${pieceMass}` : ""
  return `${pieces} ${pieces === "1" ? "piece" : "pieces"}${each}${pieceTolerance ? `, ${pieceTolerance}` : ""}`
}
