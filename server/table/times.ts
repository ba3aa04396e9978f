import type { Stage } from "../dough/schedule.ts"
import type { StageTime } from "./facts.ts"
import type { Row } from "./row.ts"

/**
 * Stages as columns, those of the bake day's revision first, then what other revisions have beside them; for each bake
 * one cell a column, undefined where its revision has no such stage.
 */
export function timesTable<Item extends { row: Row }>(items: Item[], stages: Stage[]) {
  const others = items.flatMap(({ row }) => row.stages).filter(({ key }) => stages.every((stage) => stage.key !== key))
  const columns = [...stages, ...new Map(others.map((stage) => [stage.key, stage])).values()]
  const cellsOf = ({ row }: Item): (StageTime | undefined)[] =>
    columns.map(({ key }) => row.times.find(({ stage }) => stage.key === key))
  return { columns, rows: items.map((item) => ({ item, cells: cellsOf(item) })) }
}
