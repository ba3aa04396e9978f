import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import type { Need } from "../dough/bill/order.ts"
import { wayOf } from "../formulas/content.ts"
import type { OwnDay } from "../plans/day.ts"
import { findOwnDay } from "../plans/own-day.ts"
import { scaleName, scales } from "../scaling/scales.ts"
import { weighingList } from "../scaling/weighing-list.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { typedIn } from "../web/forms.ts"
import { ownFormula } from "./own-formula.ts"
import { ownScale, scaleNamed } from "./scale.ts"

/** What one person weighs on their own day, in the order in which they need it. */
export async function billPage(request: FastifyRequest) {
  const viewer = viewerOf(request)
  const day = found(await findOwnDay(request.server.db, viewer, idOf(request), new Date()))
  const { bakeDay, kitchen, variant, question } = day
  const { content, figures, fed, pieces } = ownFormula(day, viewer.massUnit)
  const own = ownScale(kitchen, viewer.massUnit)
  const asked = typedIn(request.query).scale ?? own
  const chosen = scaleNamed(asked) ? asked : own
  const scale = scaleNamed(chosen)!
  const { measures, massUnit: unit } = viewer
  const list = weighingList(
    content,
    figures,
    { scale, unit, measures, say: sayTo(viewer), own: bakeDay.ownIngredients },
    question.stages,
  )
  const when = whenIn(day)
  const parts = list.parts.map((part) => ({
    ...part,
    when: when(part.need),
    isLevain: figures.parts[part.need.part]!.lines.some(({ countsAs, counted }) => counted && countsAs === "starter"),
    isFinal: content.parts[part.need.part]!.goesInto === "",
  }))
  return {
    ...{ bakeDay, fed, pieces, figures },
    way: wayOf(bakeDay.content, variant) ?? null,
    asWay: variant ? `&variant=${encodeURIComponent(variant)}` : "",
    ...{ parts, next: nextOf(parts, new Date()) },
    finishing: list.finishing,
    finishingWhen: list.finishingFrom === null ? null : when({ part: 0, stage: list.finishingFrom }),
    unknown: list.unknown,
    scale: { chosen, shows: scaleName(scale), known: kitchen.scaleStepG !== undefined && chosen === own },
    form: { typed: { scale: chosen }, errors: {} },
    scales: Object.entries(scales).map(([key, one]) => [key, `every ${scaleName(one)}`]),
    onTableAt: day.onTableAt,
  }
}

export type When = { stage: string; at: Date | null; is: "at" | "before" } | null

/** The part to weigh next; null when the day has passed, or nothing tells its times. */
function nextOf<Part extends { when: When }>(parts: Part[], now: Date) {
  const timed = parts.filter(({ when }) => when?.at)
  const next = timed.find(({ when }) => +when!.at! > +now - graceMs)
  return next ? { ...next, isFirst: next === timed[0] } : null
}
// Somebody who weighs is not done at once. Our own choice.
const graceMs = 20 * 60_000

/** When a part is needed, by the stages of the person's own day. */
function whenIn({ question, answer }: OwnDay) {
  const planned = new Map((answer.plan?.stages ?? []).map(({ stage, startsAt }) => [stage.key, startsAt]))
  return ({ stage, before }: Need): When => {
    const key = stage ?? before
    const found = question.stages.find((one) => one.key === key)
    if (!found) return null
    return { stage: found.name, at: planned.get(found.key) ?? null, is: stage ? "at" : "before" }
  }
}
