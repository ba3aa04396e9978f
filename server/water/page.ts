import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { specificHeats } from "../dough/heat/specific-heat.ts"
import { mixesOf, type ToMix } from "../dough/heat/to-mix.ts"
import { hottestWaterC } from "../dough/heat/water-for.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { readable, variantOf } from "../formulas/page.ts"
import type { Subject } from "../formulas/subject.ts"
import { findKitchen } from "../kitchens/queries.ts"
import { findDayInLink } from "../plans/day-in-link.ts"
import { viewerOf } from "../web/access.ts"
import { firstOf, sourcesOf } from "../web/begun.ts"
import { type Typed, typedIn } from "../web/forms.ts"
import { answerTo } from "./answer.ts"
import { beginsWith, readingsOfToday } from "./begins.ts"
import { askedOfEarlier, earlierFieldOf, fieldOf, readKitchen } from "./forms.ts"
import { changeIn, difference, kneadingNames } from "./words.ts"

/** The page on which anybody works out the water for a dough. What was asked stands in its address and is kept nowhere. */
export async function waterPage(request: FastifyRequest, { title, content: written, own, url }: Subject) {
  const { db } = request.server
  const [viewer, now] = [viewerOf(request), new Date()]
  const unit = viewer.temperatureUnit
  const day = await findDayInLink(request, url, now)
  const asked = typedIn(request.query)
  const variant = asked.variant === undefined ? (day?.variant ?? "") : variantOf(request)
  const { content, figures, way, asWay } = readable(written, { own, variant })
  const mixes = mixesOf(content.parts, figures.parts, own)
  const mix = mixes.find(({ key }) => key === asked.mix) ?? mixes[0]
  const begun = mix
    ? beginsWith({
        ...{ doughC: wantedC(content), mix, say: sayTo(viewer), ...(day ? { day } : {}) },
        kitchen: day?.kitchen ?? (await findKitchen(db, viewer.id)),
        readings: day ? await readingsOfToday(db, day, viewer.id, now) : [],
      })
    : {}
  const begins = Object.keys(asked).every((name) => notAsked.includes(name))
  const typed = { ...(begins ? firstOf(begun) : {}), ...asked }
  return {
    ...{ title, url, way, asWay, mixes, day: day ?? null, from: sourcesOf(begun, typed) },
    ...{ fieldOf, earlierFieldOf, hottestWaterC, specificHeats },
    words: { difference: (c: number) => difference(c, unit), kneadings: kneadingNames(unit), change: changeIn },
    ...(mix ? worked(mix, typed, request) : { mix: null }),
  }
}

const notAsked = ["variant", "mix", "day"]

// An ordinary kitchen's dough, where the formula says nothing. Our own choice.
const usualDoughC = 24
const wantedC = ({ stages }: FormulaContent) =>
  stages.find(({ drivenByTemperature, referenceC }) => drivenByTemperature && referenceC !== undefined)?.referenceC ??
  usualDoughC

function worked(mix: ToMix, typed: Typed, request: FastifyRequest) {
  const viewer = viewerOf(request)
  const { kitchen, errors, asksEarlier } = readKitchen(typed, mix, viewer.temperatureUnit)
  const { answer, impossibleRiseC } = kitchen ? answerTo(mix, kitchen) : {}
  if (impossibleRiseC !== undefined)
    errors[kitchen?.earlier ? "earlier.dough" : "rise"] =
      `By this, kneading would have changed the dough by ${difference(impossibleRiseC, viewer.temperatureUnit)}; check the temperatures.`
  return {
    mix,
    kitchen: kitchen ?? null,
    answer: answer ?? null,
    asksEarlier,
    form: { typed, errors },
    askedOfEarlier: askedOfEarlier(mix),
  }
}
