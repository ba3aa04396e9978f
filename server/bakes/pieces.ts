import { workOut } from "../dough/formula/formula.ts"
import { spreadOf } from "../dough/formula/piece-masses.ts"
import { drawPieces } from "./piece-strip.ts"
import type { Bake } from "./queries.ts"

/**
 * The pieces a bake's dough was divided into, beside what its formula asks for. `divides` is false for a dough that stays
 * whole, where nobody is asked to weigh pieces; `spread` and `strip` are there once some were weighed.
 */
export function piecesOf({ content, ownIngredients: own, pieceMassesG: massesG }: Weighed) {
  const asked = workOut(content, { measures: content.measures, own }).pieces
  const divides = (asked?.count ?? 0) > 1 || content.stages.some(({ kind }) => kind === "divide")
  if (massesG.length === 0) return { divides, asked, massesG }
  const spread = spreadOf(massesG, asked?.allowedG)
  return { divides, asked, massesG, spread, strip: drawPieces(massesG, spread.outside, asked) }
}
type Weighed = Pick<Bake, "content" | "ownIngredients" | "pieceMassesG">
