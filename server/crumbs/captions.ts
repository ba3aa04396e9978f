import { type AnyColumn, type SQL, sql } from "drizzle-orm"
import { measurements, photos } from "../schema.ts"

/** The few figures of a measured crumb that stand under its photo. */
export type CrumbFigures = { photoId: string; share: number; largestMm2: number | null; cautions: number }

/** Those of all photos of a bake, as one value in a row of it; see rowsOf. */
export const crumbFiguresOf = (bakeId: AnyColumn): SQL<CrumbFigures[]> =>
  sql<CrumbFigures[]>`(
    select coalesce(json_agg(json_build_object(
      'photoId', ${measurements.photoId},
      'share', ${measurements.result} #> '{features,visibleCellShare}',
      'largestMm2', ${measurements.result} #> '{scaled,largestCellMm2}',
      'cautions', jsonb_array_length(${measurements.result} -> 'cautions'))), '[]')
    from ${measurements} inner join ${photos} on ${photos.id} = ${measurements.photoId}
    where ${photos.bakeId} = ${bakeId} and ${measurements.state} = 'measured')`

/** "visible cell area 38 %, largest cell 12 mm²" */
export function crumbCaption({ share, largestMm2, cautions }: CrumbFigures): string {
  const largest = largestMm2 ? `, largest cell ${Math.round(largestMm2)} mm²` : ""
  return `visible cell area ${Math.round(100 * share)} %${largest}${cautions > 0 ? ", with cautions" : ""}`
}
