import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { ownScale } from "../bill/scale.ts"
import { prefermentsOf } from "../dough/levain/part.ts"
import { readable, variantOf } from "../formulas/page.ts"
import type { Subject } from "../formulas/subject.ts"
import { findKitchen } from "../kitchens/queries.ts"
import { awayBetween } from "../plans/away.ts"
import { findDayInLink } from "../plans/day-in-link.ts"
import { scaleName, scales } from "../scaling/scales.ts"
import { viewerOf } from "../web/access.ts"
import { firstOf, sourcesOf } from "../web/begun.ts"
import { type Typed, typedIn } from "../web/forms.ts"
import { type Answer, answerTo } from "./answer.ts"
import { beginsWith } from "./begins.ts"
import { type Asked, findIn, finds, readAsked } from "./forms.ts"
import { shownBuilds } from "./shown.ts"
import { tableFor } from "./table.ts"
import { clockChange } from "./times.ts"
import { checksOf, insteadOf, otherStarters, placesIn } from "./words.ts"
import { yeastedPage } from "./yeasted.ts"

/** The page on which anybody works out how to feed a levain. What was asked stands in its address and is kept nowhere. */
export async function levainPage(request: FastifyRequest, { title, content: written, own, url }: Subject) {
  const { db } = request.server
  const [viewer, now] = [viewerOf(request), new Date()]
  const say = sayTo(viewer)
  const day = await findDayInLink(request, url, now)
  const kitchen = day?.kitchen ?? (await findKitchen(db, viewer.id))
  const query = typedIn(request.query)
  const variant = query.variant === undefined ? (day?.variant ?? "") : variantOf(request)
  const { content, figures, way, asWay } = readable(written, { own, variant })
  const preferments = prefermentsOf(content.parts, figures)
  const preferment = preferments.find(({ key }) => key === query.part) ?? preferments[0]
  const about = { title, url, way, asWay, preferments, preferment: preferment ?? null, day: day ?? null }
  if (!preferment) return { ...about, kind: "none" as const }

  const begun = beginsWith({
    ...{ preferment, kitchen, viewer, say, now, stages: content.stages },
    ...{ ...(figures.pieces ? { pieces: figures.pieces.count } : {}), ...(day ? { day } : {}) },
  })
  const begins = Object.keys(query).every((name) => notAsked.includes(name))
  const typed: Typed = { ...(begins ? firstOf(begun) : {}), ...query, variant: way?.key ?? "" }
  const scale = scales[ownScale(kitchen, viewer.massUnit)]!
  const page = {
    ...{ ...about, typed, from: sourcesOf(begun, typed), places: placesIn(kitchen, typed.at, say) },
    ...{ scaleName: scaleName(scale), scaleTold: kitchen.scaleStepG !== undefined },
    ...{ withAsked: (changes: Typed) => addressWith(url, typed, changes) },
    kitchenUnknown: Object.keys(kitchen).length === 0,
  }
  if (preferment.kind === "yeasted") return { ...page, ...yeastedPage(preferment, typed, { viewer, scale, say }) }

  const { hydration = 1, other, food } = preferment
  const { asked, errors, asks } = readAsked(typed, { hydration, other }, viewer)
  const away = (from: Date, to: Date) =>
    awayBetween({ kitchen, wishes: day?.wishes ?? {}, zone: viewer.zone, from, to })
  const answer = asked ? answerTo(asked, away) : null
  return {
    ...page,
    kind: "levain" as const,
    form: { typed, errors },
    find: findIn(typed),
    finds,
    notYet: asks ?? "Something that was typed cannot be read; beside it stands why.",
    hydration,
    answer,
    shown: asked && answer && "builds" in answer ? shownAs(answer, asked) : null,
    instead: asked && answer ? insteadOf(answer, asked, say, now) : [],
    otherStarters: answer && otherStarters(answer),
    table: asked ? tableFor(asked, { kitchen, say, ...inTable(answer), ...writtenIn(preferment) }) : null,
    checks: checksOf(say),
  }

  function shownAs({ builds, atC }: Extract<Answer, { builds: unknown }>, { levain, fedAt, ripeAt }: Asked) {
    const typedAt = [fedAt, ripeAt].filter((at) => at !== undefined)
    const [from, to] = [builds[0]!.feedAt, builds.at(-1)!.ripe.at]
    return {
      ...shownBuilds({ builds, levain, food, scale, say, typedAt }),
      at: say.temperature(atC),
      clocks: clockChange(from, to, say),
      hydrationOff: offBy(builds.at(-1)!.feeding.hydration, hydration) ? say.percent(hydration) : null,
    }
  }
}
const notAsked = ["variant", "part", "day"]

// Nobody feels a hundredth more or less water. Our own limit.
const offBy = (one: number, other: number) => Math.abs(one - other) > 0.015

const inTable = (answer: Answer | null) =>
  answer && "builds" in answer && answer.builds.length === 1 ? { answered: answer.builds[0]!.feeding } : {}
const writtenIn = ({ written }: { written?: { starter: number; flour: number; water: number } }) =>
  written
    ? { written: { starter: 1, flour: written.flour / written.starter, water: written.water / written.starter } }
    : {}

function addressWith(url: string, typed: Typed, changes: Typed) {
  const said = Object.entries({ ...typed, ...changes }).filter(([name, text]) => text !== "" || !(name in changes))
  return `${url}/levain?${new URLSearchParams(said)}`
}
