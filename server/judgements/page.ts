import { randomUUID } from "node:crypto"
import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { mayDoWith } from "../bakes/access.ts"
import type { Row } from "../table/row.ts"
import { wordsFor } from "../table/words.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { blank, type Form } from "../web/forms.ts"
import { evidenceIn } from "./evidence.ts"
import { explanationName, otherExplanations } from "./explanations.ts"
import { judgedBake } from "./judged.ts"
import { largeHill } from "./large-hill.ts"
import { type Judgement, listJudgements } from "./queries.ts"
import { sharesIn } from "./shares.ts"
import { callWords, chancesIn, standingOf } from "./standing.ts"
import { namedIn, suspectsIn } from "./suspects.ts"
import { placeOf } from "./where.ts"

/** What the facts of one bake say of it, piece by piece, and beside that what its baker and the instructors say. */
export async function verdictPage(request: FastifyRequest, form: Form = blank) {
  const { db } = request.server
  const [viewer, now] = [viewerOf(request), new Date()]
  const say = sayTo(viewer)
  const { bake, row } = await judgedBake(db, viewer, idOf(request), now)
  const may = await mayDoWith(db, viewer, bake.id)
  const own = bake.userId === viewer.id
  const said = await listJudgements(db, bake)
  const { verdict } = row
  return {
    ...{ bake, row, own, verdict },
    words: wordsFor(row, bake.name, say, bake.zone),
    hill: "hill" in verdict ? largeHill(verdict) : null,
    named: namedIn(verdict),
    ...evidenceIn(verdict),
    suspects: suspectsIn(verdict),
    causes: sharesIn(row.causes, say),
    said: said.map((one) => ({ ...one, told: toldIn(one), mine: one.userId === viewer.id })),
    standing: standingOf(said),
    writes: may === "write" || may === "delete",
    judges: may === "delete" && row.state !== "nothing" && row.state !== "running",
    form,
    whereToSay: placeOf(verdict.asks),
    ...{ callWords, otherExplanations },
    newEntryId: () => randomUUID(),
  }
}

/** A judgement in words. */
function toldIn({ call, explanation, model }: Judgement) {
  const name = explanationName(explanation)
  return {
    call: callWords[call],
    explanation: name,
    model: model && chancesIn(model),
  }
}

/** What a judgement keeps of the model's word at that moment. */
export function modelIn({ verdict }: Pick<Row, "verdict">): Judgement["model"] {
  if (verdict.call === "not enough to say") return null
  const { under, well, over, suspects } = verdict
  return { under, well, over, suspect: suspects[0]?.key ?? "" }
}
