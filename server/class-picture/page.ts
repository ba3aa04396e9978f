import type { FastifyRequest } from "fastify"
import { type Say, sayTo } from "../accounts/say.ts"
import { type BakeDay, findBakeDay } from "../bake-days/queries.ts"
import { roleIn } from "../classes/access.ts"
import type { Proposal } from "../dough/class-picture/proposals.ts"
import { type Raised, raisedBy } from "../estimate/leaven.ts"
import { mayEdit } from "../formulas/access.ts"
import { findFormula } from "../formulas/queries.ts"
import { mainFlours } from "../table/mix.ts"
import { listBakesOf } from "../table/queries.ts"
import { layRow } from "../table/row.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form } from "../web/forms.ts"
import { draftWith } from "./drafting.ts"
import { type ClassBake, type ClassPicture, pictureOf } from "./picture.ts"
import { againstTemperature, causesPlot, explainedPlot } from "./plots.ts"
import { apartIn, explainedIn, headlineIn, lineIn, proposalIn, sharedIn } from "./words.ts"

/** Everything the page of a class's bakes shows to one person, from the bakes that they may see. */
export async function classPage(request: FastifyRequest, form: Form = blank) {
  const { db } = request.server
  const [viewer, say] = [viewerOf(request), sayTo(viewerOf(request))]
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const role = await roleIn(db, viewer, bakeDay.classId)
  const bakes = await bakesOf(request, bakeDay, role)
  const picture = pictureOf(bakes, bakeDay, raisedIn(bakeDay))
  const page = { bakeDay, staff: role !== "student", form, bakes: bakes.length }
  if (!picture.enough) return { ...page, tooFew: picture.why, shown: null }

  const formula = role === "instructor" ? await findFormula(db, bakeDay.formulaId) : undefined
  const writes = formula !== undefined && mayEdit(viewer, formula)
  return {
    ...page,
    tooFew: null,
    shown: {
      ...told(picture.value, bakeDay, say),
      proposals: proposalsFor(picture.value.proposals, bakeDay, say, writes ? formula.draft : undefined),
      writes,
    },
  }
}

/** What may be drafted, for whoever writes the formula: all bakes count. */
export async function proposedFor(request: FastifyRequest) {
  const bakeDay = found(await findBakeDay(request.server.db, idOf(request)))
  const picture = pictureOf(await bakesOf(request, bakeDay, "instructor"), bakeDay, raisedIn(bakeDay))
  return { bakeDay, proposals: picture.enough ? picture.value.proposals : [] }
}

export const keyOf = (proposal: Proposal): string =>
  proposal.kind === "length" ? `length ${proposal.stageKey}` : proposal.kind

const raisedIn = ({ content, ownIngredients }: BakeDay): Raised => raisedBy(content, ownIngredients)

async function bakesOf(
  request: FastifyRequest,
  bakeDay: BakeDay,
  role: Awaited<ReturnType<typeof roleIn>>,
): Promise<ClassBake[]> {
  const now = new Date()
  const bakes = await listBakesOf(request.server.db, bakeDay.id, { viewer: viewerOf(request), role })
  return bakes.map((bake) => ({
    key: String(bake.id),
    name: bake.nth > 1 ? `${bake.name}, bake ${bake.nth}` : bake.name,
    row: layRow(bake, bake.content.stages, bakeDay, now, bake.culture),
    flour: mainFlours(bake.mix).join(", "),
  }))
}

function told(picture: ClassPicture, { content: { stages }, targetRise }: BakeDay, say: Say) {
  const { led, untold, timed, explained, apart } = picture
  const names = new Map(led.map(({ key, name }) => [key, name]))
  return {
    ...{ led: led.length, untold, headline: headlineIn(picture, say), shared: sharedIn(picture, stages, say) },
    timed: {
      plot: timed.bakes.length ? againstTemperature(timed, targetRise ? say.rise(targetRise) : "the target") : null,
      words: lineIn(timed, say),
      left: timed.left,
    },
    explained: explained.enough
      ? { plot: explainedPlot(explained.value), words: explainedIn(explained.value, say, names) }
      : { plot: null, words: [explained.why] },
    causes: causesPlot(picture),
    apart: apart.enough
      ? apart.value.apart.map((one) => ({ key: one.key, name: names.get(one.key)!, words: apartIn(one, say) }))
      : apart.why,
  }
}

/** Each proposal in words; with the draft at hand, also why it would be left alone. */
function proposalsFor(proposals: Proposal[], bakeDay: BakeDay, say: Say, draft: BakeDay["content"] | undefined) {
  const left = draft ? draftWith(draft, proposals, bakeDay.ownIngredients).left : []
  return proposals.map((proposal) => ({
    key: keyOf(proposal),
    ...proposalIn(proposal, bakeDay.content.stages, say),
    left: left.find((one) => one.proposal === proposal)?.why ?? null,
  }))
}
