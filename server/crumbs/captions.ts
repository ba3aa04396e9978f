import { and, eq, inArray, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { measurements } from "../schema.ts"

/** What stands under each of these photos that was measured, in a few words; only those figures are read. */
export async function captionsOf(db: Db, photoIds: string[]): Promise<Map<string, string>> {
  if (photoIds.length === 0) return new Map()
  const figure = (path: string) =>
    sql<number | null>`(${measurements.result} #>> ${path}::text[])::double precision`.mapWith(Number)
  const rows = await db
    .select({
      id: measurements.photoId,
      share: figure("{features,visibleCellShare}"),
      largestMm2: figure("{scaled,largestCellMm2}"),
      cautions: sql<number>`jsonb_array_length(${measurements.result} -> 'cautions')`.mapWith(Number),
    })
    .from(measurements)
    .where(and(inArray(measurements.photoId, photoIds), eq(measurements.state, "measured")))
  return new Map(rows.map(({ id, ...figures }) => [id, wordsOf(figures)]))
}

function wordsOf({
  share,
  largestMm2,
  cautions,
}: {
  share: number | null
  largestMm2: number | null
  cautions: number
}) {
  const largest = largestMm2 ? `, largest cell ${Math.round(largestMm2)} mm²` : ""
  return `visible cell area ${Math.round(100 * (share ?? 0))} %${largest}${cautions > 0 ? ", with cautions" : ""}`
}
