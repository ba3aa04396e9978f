import type { Lined } from "../table/places.ts"
import type { Courses } from "./courses.ts"

/** What the hours of the axis are, and how its 0 is called; no name for the clock, which has none. */
export function timeWords({ lined, each }: Pick<Courses, "lined" | "each">): { label: string; zero?: string } {
  if (lined === "clock") return { label: "Clock" }
  if (lined === "table") return { label: "Hours to the table", zero: "table" }
  if (lined === "reference") return { label: "Reference hours since fermentation began", zero: "0 h" }
  if (lined === "start") return { label: "Hours since fermentation began", zero: "start" }
  const name = stageName(lined, each)
  return { label: `Hours since ${name} began`, zero: "start" }
}

function stageName(lined: Lined, each: Courses["each"]) {
  const stages = each.flatMap(({ laid }) => laid.row.stages)
  return (stages.find(({ key }) => `from-${key}` === lined)?.name ?? "the stage").toLowerCase()
}
