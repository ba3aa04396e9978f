import { risingOf } from "../estimate/rising.ts"
import type { PlotPoint } from "../plots/plot.ts"
import type { Places } from "../table/places.ts"
import type { TableBake } from "../table/queries.ts"
import type { Row } from "../table/row.ts"

/** Where an instant lies on the axis of time, in hours; undefined where it has no place there. */
export type Place = Places["actual"]

/** A bake with what its log says. */
export type Laid = { bake: TableBake; row: Row }

/** "Bea", or "Bea, bake 2" for her second of those seen. */
export const namedAs = ({ name, nth }: Pick<TableBake, "name" | "nth">) => (nth > 1 ? `${name}, bake ${nth}` : name)

/**
 * The rises of one dough in per cent of the volume it started with, from that start, where it is 0, until it was shaped:
 * a rise after that has another start.
 */
export function risesOf({ bake }: Laid, at: Place): PlotPoint[] {
  const rising = risingOf(bake.content.stages, bake.marks)
  if (!rising) return []
  const { zeroAt, endedAt } = rising
  const read = bake.readings
    .filter(
      ({ kind, value, takenAt }) =>
        kind === "rise" && value !== null && takenAt >= zeroAt && (!endedAt || takenAt <= endedAt),
    )
    .map(({ takenAt, value, known }) => ({ takenAt, value: value! * 100, guessed: known !== "measured" }))
  if (!read.length) return []
  const zero = read[0]!.takenAt > zeroAt ? [{ takenAt: zeroAt, value: 0, guessed: false }] : []
  return placed([...zero, ...read], at)
}

/** The temperatures of the dough or of its room, °C. */
export function temperaturesOf({ bake }: Laid, kind: "dough" | "room", at: Place): PlotPoint[] {
  const read = bake.readings
    .filter((reading) => reading.kind === kind && reading.value !== null)
    .map(({ takenAt, value, known }) => ({ takenAt, value: value!, guessed: known !== "measured" }))
  return placed(read, at)
}

type Taken = { takenAt: Date; value: number; guessed: boolean }

function placed(taken: Taken[], at: Place): PlotPoint[] {
  const inOrder = taken.toSorted((a, b) => +a.takenAt - +b.takenAt)
  return inOrder.flatMap(({ takenAt, value, guessed }): PlotPoint[] => {
    const x = at(takenAt)
    if (x === undefined) return []
    return [guessed ? { x, y: value, guessed } : { x, y: value }]
  })
}
