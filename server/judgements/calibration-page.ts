import type { FastifyRequest } from "fastify"
import { roleIn } from "../classes/access.ts"
import { findClass } from "../classes/queries.ts"
import { type Correction, calibrationOf, leastInAll, leastInBin, wasRight } from "../dough/verdict/calibration.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { calibrationPlot, percentsOf } from "./calibration-plot.ts"
import { listCorrected } from "./queries.ts"
import { callWords, chancesIn } from "./standing.ts"

/** How often the model and the instructors agreed: counts for everybody in the class, for the staff also which bakes. */
export async function calibrationPage(request: FastifyRequest) {
  const { db } = request.server
  const group = found(await findClass(db, idOf(request)))
  const role = await roleIn(db, viewerOf(request), group.id)
  const corrected = await listCorrected(db, group.id)
  const counted = corrected.flatMap((one) => {
    const correction = correctionIn(one)
    return correction ? [{ ...one, right: wasRight(correction), correction }] : []
  })
  const calibration = calibrationOf(counted.map(({ correction }) => correction))
  return {
    group,
    calibration,
    ...{ leastInAll, leastInBin, percentsOf, callWords, chancesIn },
    notCounted: corrected.length - counted.length,
    plot: calibration.enough ? (calibrationPlot(calibration) ?? null) : null,
    bakes: role === "student" ? [] : counted,
  }
}

type Corrected = Awaited<ReturnType<typeof listCorrected>>[number]

/** Undefined where the model had not enough to say, or the instructor could not tell. */
function correctionIn({ call, model }: Corrected): Correction | undefined {
  if (!model || call === "unsure") return undefined
  const { under, well, over } = model
  return { said: { under, well, over }, call }
}
