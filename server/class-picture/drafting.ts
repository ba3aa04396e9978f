import type { Proposal } from "../dough/class-picture/proposals.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { raisedBy } from "../estimate/leaven.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { withLeavenShare } from "./leaven-share.ts"

/** A draft with the proposed figures in it, what was changed for which of them, and why others were left alone. */
export type Drafted = { content: FormulaContent; done: Proposal[]; left: { proposal: Proposal; why: string }[] }

/**
 * Puts proposed figures into a formula's draft, and nothing else: a figure that somebody has changed since the bake day's
 * revision stays theirs.
 */
export function draftWith(draft: FormulaContent, proposals: Proposal[], own: Ingredient[]): Drafted {
  const drafted: Drafted = { content: draft, done: [], left: [] }
  for (const proposal of proposals) {
    const changed = withoutReference(proposal, drafted) ?? changeFor(drafted.content, proposal, own)
    if ("why" in changed) drafted.left.push({ proposal, why: changed.why })
    else {
      drafted.content = changed.content
      drafted.done.push(proposal)
    }
  }
  return drafted
}

/** Lengths that fit another temperature are of no use where that temperature was left alone. */
function withoutReference(proposal: Proposal, { left }: Drafted) {
  if (proposal.kind !== "length" || proposal.because !== "warmth") return undefined
  const reference = left.find((one) => one.proposal.kind === "reference" && one.why !== already)
  return reference && { why: reference.why }
}

type Change = { content: FormulaContent } | { why: string }

const already = "the draft has it already"
const someoneElses = "the draft has another figure there by now"
const gone = "the draft no longer has that stage"

function changeFor(content: FormulaContent, proposal: Proposal, own: Ingredient[]): Change {
  switch (proposal.kind) {
    case "length":
      return changeStage(content, [proposal.stageKey], ({ lowMin, highMin }) => {
        const { was, now } = proposal
        if (lowMin === now.lowMin && highMin === now.highMin) return already
        return lowMin === was.lowMin && highMin === was.highMin ? now : someoneElses
      })
    case "reference":
      return changeStage(content, proposal.stageKeys, ({ referenceC }) => {
        if (referenceC === proposal.nowC) return already
        return referenceC === proposal.wasC ? { referenceC: proposal.nowC } : someoneElses
      })
    case "leaven": {
      const raised = raisedBy(content, own)
      const share = "leaven" in raised ? raised.leaven.share : undefined
      if (share !== undefined && isNear(share, proposal.now)) return { why: already }
      if (share === undefined || !isNear(share, proposal.was)) return { why: someoneElses }
      const changed = withLeavenShare(content, share, proposal.now, own)
      return changed ? { content: changed } : { why: "its amounts are not all in grams: change them by hand" }
    }
    case "target rise":
      return { why: "a target is the bake day’s, not the formula’s: give it to the next one" }
  }
}

type Stage = FormulaContent["stages"][number]

/** All of these stages, or none of them. */
function changeStage(
  content: FormulaContent,
  keys: string[],
  change: (stage: Stage) => Partial<Stage> | string,
): Change {
  const theirs = content.stages.filter(({ key }) => keys.includes(key))
  if (theirs.length < keys.length) return { why: gone }
  const changes = theirs.map(change)
  const refusal = changes.find((one) => typeof one === "string")
  if (typeof refusal === "string") return { why: refusal }
  const changed = new Map(theirs.map(({ key }, at) => [key, changes[at] as Partial<Stage>]))
  return { content: { ...content, stages: content.stages.map((stage) => ({ ...stage, ...changed.get(stage.key) })) } }
}

const isNear = (a: number, b: number) => Math.abs(a - b) < Math.max(0.02 * b, 1e-4)
