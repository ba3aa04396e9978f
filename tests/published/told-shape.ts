import type { ExplanationKey } from "../../server/dough/verdict/explanations.ts"
import type { BakeFacts } from "../../server/dough/verdict/facts.ts"

/**
 * One bake as somebody told it, with what the people in that place agreed on. DEVELOPERS.md, "A bake told in words", says
 * how one is entered. `facts` holds what was told and nothing else: what was left open is left out, a range stays one, and
 * a cue is there because somebody said it. `name` tells the bakes of one account apart. `agreed` is the diagnosis; more than
 * one where it names several causes together, any of which is right.
 */
export type ToldDiagnosis = {
  id: string
  bread: string
  source: string
  name?: string
  facts: BakeFacts
  agreed?: ExplanationKey[]
}
