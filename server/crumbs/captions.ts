import { type AnyColumn, type SQL, sql } from "drizzle-orm"
import { measurements, photos } from "../schema.ts"

/** The few figures of a measured crumb that stand under its photo. */
export type CrumbFigures = {
  photoId: string
  share: number
  shareRange: [number, number]
  /** these only with a scale */
  perCm2: number | null
  meanMm2: number | null
  largestMm2: number | null
  /** what to bear in mind about them, in plain words */
  cautions: string[]
}

/** Those of all photos of a bake, as one value in a row of it; see rowsOf. */
export const crumbFiguresOf = (bakeId: AnyColumn): SQL<CrumbFigures[]> =>
  sql<CrumbFigures[]>`(
    select coalesce(json_agg(json_build_object(
      'photoId', ${measurements.photoId},
      'share', ${measurements.result} #> '{features,visibleCellShare}',
      'shareRange', ${measurements.result} -> 'shareRange',
      'perCm2', ${measurements.result} #> '{scaled,cellsPerCm2}',
      'meanMm2', ${measurements.result} #> '{scaled,meanCellMm2}',
      'largestMm2', ${measurements.result} #> '{scaled,largestCellMm2}',
      'cautions', jsonb_path_query_array(${measurements.result}, '$.cautions[*].says'))), '[]')
    from ${measurements} inner join ${photos} on ${photos.id} = ${measurements.photoId}
    where ${photos.bakeId} = ${bakeId} and ${measurements.state} = 'measured')`

/** "visible cell area 38 %, largest cell 12 mm²" */
export function crumbCaption({ share, largestMm2, cautions }: CrumbFigures): string {
  const largest = largestMm2 ? `, largest cell ${Math.round(largestMm2)} mm²` : ""
  return `visible cell area ${Math.round(100 * share)} %${largest}${cautions.length > 0 ? ", with cautions" : ""}`
}
