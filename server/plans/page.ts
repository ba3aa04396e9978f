import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { listBakesBy } from "../bake-days/queries.ts"
import type { DayAnswer, Place } from "../dough/day/day.ts"
import { isLevain } from "../estimate/rising.ts"
import { cautionsFor } from "../formulas/cautions.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Form, type Typed, typedIn } from "../web/forms.ts"
import { dayOf } from "../web/zones.ts"
import { courseOf } from "./course.ts"
import type { OwnDay } from "./day.ts"
import { readDay } from "./forms.ts"
import { type DayAsked, findDayAsked, ownDayOf } from "./own-day.ts"
import { dayPlot } from "./plot.ts"
import { changeInWords } from "./taking.ts"
import { feedingWords, mostErrands, placeField, typedDay } from "./typed.ts"
import { basisWords, brokenWords, placeNames, suggestionWords, timesWords } from "./words.ts"

/** One person's own day, as it is kept, or, where the address or a refused form asks for another, as it would be. */
export async function planPage(request: FastifyRequest, refused?: Form) {
  const { db } = request.server
  const [viewer, now] = [viewerOf(request), new Date()]
  const say = sayTo(viewer)
  const present = found(await findDayAsked(db, viewer, idOf(request), now))
  const asked = refused ? (refused.typed as Typed) : typedIn(request.query)
  const looking = Boolean(refused) || asked.whole !== undefined
  const typed = looking ? asked : typedDay(present, viewer)
  const read = readDay(typed, present, viewer)
  const looked: DayAsked = read.values ? { ...present, ...read.values } : present

  const bakes = await listBakesBy(db, present.bakeDay.id, viewer.id)
  const begun = bakes.some(({ abandonedAt }) => !abandonedAt)
  // nobody can begin yesterday; but what has begun, or is over, is no longer asked
  const day = ownDayOf(looked, begun || looked.onTableAt < now ? undefined : now)
  const { question, answer } = day
  const places = placeNames(day.kitchen)
  const course = answer.plan ? courseOf(answer.plan, question, places) : []
  return {
    ...{ bakeDay: day.bakeDay, day, plan: answer.plan ?? null, begun, now },
    looking: looking && !read.errors.day && !sameDay(looked, present),
    unread: Object.keys({ ...read.errors, ...refused?.errors }).length > 0,
    form: { typed, errors: { ...read.errors, ...refused?.errors } },
    broken: answer.fits ? [] : answer.broken.map((one) => brokenWords(one, day, say)),
    suggestions: suggestionsOf(answer, day, now).map((one) => ({
      words: suggestionWords(one, day, say),
      times: timesWords(one.plan, say),
      change: changeInWords(one),
    })),
    course,
    plot: dayPlot(answer.plan?.curve ?? [], course, question.places, say) ?? null,
    rests: basisWords(day, say),
    asks: asksOf(day, typed),
    places,
    cautions: cautionsFor(day.content, {
      ...{ own: day.bakeDay.ownIngredients, list: day.bakeDay.allergenList },
      ...(answer.plan ? { plan: answer.plan } : {}),
    }),
    kitchenUnknown: Object.keys(day.kitchen).length === 0,
  }
}

const sameDay = (a: DayAsked, b: DayAsked) =>
  a.kept &&
  +a.onTableAt === +b.onTableAt &&
  a.variant === b.variant &&
  JSON.stringify(a.wishes) === JSON.stringify(b.wishes)

/** Those that can still be done, within the days of the bake day. */
function suggestionsOf(answer: DayAnswer, { bakeDay }: OwnDay, now: Date) {
  if (answer.fits) return []
  const within = ({ plan }: { plan: OwnDay["answer"]["plan"] }) =>
    plan && (plan.onTableAt < now || plan.startsAt >= now) && dayOf(plan.onTableAt, bakeDay.zone) <= bakeDay.closesOn
  return answer.suggestions.filter(within)
}

/** What the form asks: where each stage stands that ferments, and how many rows for what else is on. */
function asksOf({ question, basis, bakeDay }: OwnDay, typed: Typed) {
  const { stages, levain } = question
  const places = Object.keys(basis.places) as Place[]
  const errands = Array.from({ length: mostErrands }, (_, at) => at).filter(
    (at) => typed[`busy.${at}.from`] || typed[`busy.${at}.to`],
  )
  return {
    places,
    standing: stages
      .filter(({ drivenByTemperature, kind }) => drivenByTemperature || kind === "retard")
      .map(({ key, name, kind }) => ({ field: placeField(key), name, usual: kind === "retard" ? "fridge" : "room" })),
    chills: stages.filter((stage) => stage.drivenByTemperature && !isLevain(stage)).map(({ key, name }) => [key, name]),
    feeding: levain ? feedingWords(levain.written) : "",
    errands: Math.min((errands.at(-1) ?? -1) + 2, mostErrands),
    ways: bakeDay.content.variants,
  }
}
