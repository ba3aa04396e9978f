import type { Db } from "../db.ts"
import { niceAxis } from "../plots/axes.ts"
import type { Plot } from "../plots/plot.ts"
import { listCountedCrumbs, listCounts } from "./queries.ts"
import { agreementWords, cellsIn } from "./truth.ts"

/** All that people of a class counted, each against what the measurement finds in the same frame. */
export async function classTruth(db: Db, classId: number) {
  const crumbs = await listCountedCrumbs(db, classId)
  const counts = crumbs.length
    ? await listCounts(
        db,
        crumbs.map(({ photo }) => photo.id),
      )
    : []
  const rows = counts.map((one) => {
    const { photo, bake, measurement } = crumbs.find(({ photo }) => photo.id === one.photoId)!
    const result = measurement?.result
    const measured = result?.kind === "measured" ? cellsIn(result, one.frame) : null
    return {
      ...one,
      photo,
      bake,
      counted: one.count,
      measured,
      why: result?.kind === "measured" ? "outside the measured area" : "not measured",
    }
  })
  return { rows, agreement: agreementWords(rows), plot: countedPlot(rows) }
}

function countedPlot(rows: { counted: number; measured: number | null; bake: { name: string } }[]): Plot | undefined {
  const points = rows.flatMap(({ counted, measured, bake }) =>
    measured === null ? [] : [{ x: counted, y: measured, label: bake.name }],
  )
  if (points.length < 2) return undefined
  const high = Math.max(...points.flatMap(({ x, y }) => [x, y]))
  return {
    title: "Counted, and measured",
    says: `${points.length} frames: cells counted by eye across, cells measured upward. On the line both find as many.`,
    x: niceAxis(0, high, { label: "Counted by eye", unit: "cells", digits: 0 }),
    y: niceAxis(0, high, { label: "Measured", unit: "cells", digits: 0 }),
    series: [
      { name: "as many", kind: "line", role: "target", points: [0, high].map((at) => ({ x: at, y: at })) },
      { name: "a frame", kind: "dots", role: "own", points },
    ],
  }
}
