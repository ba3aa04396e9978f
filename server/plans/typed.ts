import { sayTo } from "../accounts/say.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import type { Viewer } from "../web/access.ts"
import type { Typed } from "../web/forms.ts"
import { clockTime, dayOf } from "../web/zones.ts"
import type { DayAsked } from "./own-day.ts"

/** More errands than that nobody has on one bake day. Our own limit. */
export const mostErrands = 8

/** A day as it stands in its form: `whole`, so that a box without a tick says something. */
export function typedDay(
  { onTableAt, variant, wishes }: Pick<DayAsked, "onTableAt" | "variant" | "wishes">,
  viewer: Viewer,
): Typed {
  const { minutesRange } = sayTo(viewer)
  const { roomTyped = "", notBefore = "", places = {}, cold, feeding, pieces, ovenHolds, busy = [] } = wishes
  return {
    whole: "yes",
    ...{ day: dayOf(onTableAt, viewer.zone), time: clockTime(onTableAt, viewer.zone), variant },
    ...{ room: roomTyped, notBefore, usualBusy: wishes.usualBusy === false ? "" : "on" },
    ...Object.fromEntries(Object.entries(places).map(([key, place]) => [placeField(key), place])),
    ...{ cold: cold?.stageKey ?? "", coldFor: cold ? minutesRange(cold.lowMin, cold.highMin) : "" },
    feeding: feeding ? feedingWords(feeding) : "",
    ...{ pieces: pieces ? String(pieces) : "", ovenHolds: ovenHolds ? String(ovenHolds) : "" },
    ...Object.assign({}, ...busy.map(({ from, to }, at) => ({ [`busy.${at}.from`]: from, [`busy.${at}.to`]: to }))),
  }
}

export const placeField = (stageKey: string) => `place.${stageKey}`

/** "1 : 3.7 : 3.7", starter to flour to water. */
export const feedingWords = ({ starter, flour, water }: Ratio) =>
  [starter, flour, water].map((parts) => Number(parts.toFixed(parts < 10 ? 1 : 0))).join(" : ")
