import type { Say } from "../accounts/say.ts"
import type { BakeDay } from "../bake-days/queries.ts"
import { causesIn } from "../table/cause-words.ts"
import { drawHill, type Hill } from "../table/hill.ts"
import { wordsFor } from "../table/words.ts"
import { dayOf } from "../web/zones.ts"
import { middleOf } from "./class-middle.ts"
import { figuresOf, type Laid } from "./class-view.ts"
import type { EditionContent, KeptBake, ReviewContent } from "./content.ts"
import { inUnits } from "./in-units.ts"
import type { KeyedPlot } from "./plots.ts"

/** A draft with everything as it stands now, so that nothing in it moves afterwards. What is not shared any more stays out. */
export function keep(
  draft: ReviewContent,
  { laid, plots }: { laid: Laid[]; plots: KeyedPlot[] },
  { zone }: BakeDay,
): EditionContent {
  const { saved: _, ...words } = draft
  const present = (id: number | null) => laid.some(({ bake }) => bake.id === id)
  const bakes = draft.bakes.filter(({ id }) => present(id))
  const pairs = draft.pairs.filter(({ left, right }) => present(left) && present(right))
  const shown = new Set([...bakes.map(({ id }) => id), ...pairs.flatMap(({ left, right }) => [left, right])])
  return {
    ...words,
    ...{ bakes, pairs },
    kept: {
      bakes: laid.filter(({ bake }) => shown.has(bake.id)).map((one) => keepBake(one, zone, photosOf(draft, one))),
      plots: plots.filter(({ key }) => draft.plots.includes(key)).map(({ plot }) => plot),
      names: laid.map(({ bake: { id, name } }) => ({ bakeId: id, name })),
      class: middleOf(laid.map(figuresOf)),
    },
  }
}

function keepBake({ bake, row }: Laid, zone: string, photos: string[]): KeptBake {
  const { id, name, nth, kitchen, onTableAt } = bake
  const words = inUnits((say) => wordsFor(row, name, say, zone))
  const { call, chances } = words["C g"]
  const { hours, doughC, rise } = figuresOf({ bake, row })
  return {
    ...{ id, name, nth, kitchen, call, chances, photos },
    day: dayOf(onTableAt, zone),
    hill: "mean" in row.verdict ? rounded(drawHill(row.verdict)) : null,
    figures: { hours, plannedHours: row.plannedHours, doughC, rise },
    causes: inUnits((say) => firstCausesIn(row, wordsFor(row, name, say, zone).differences, say)),
  }
}

/** A bake that stands only in a pair shows its crumb, or else what comes first. */
function photosOf({ bakes }: ReviewContent, { bake }: Laid) {
  return bakes.find(({ id }) => id === bake.id)?.photos ?? bake.photos.slice(0, 1).map(({ id }) => id)
}

/** A tenth of a point of a drawing is less than anybody sees. */
function rounded({ points, ...hill }: Hill): Hill {
  return { ...hill, points: points.map(([x, y]) => [round(x), round(y)]) }
}
const round = (value: number) => Math.round(value * 10) / 10

/** How far it was from its plan and the first causes of that; where nobody can know, what it did otherwise. */
function firstCausesIn({ causes }: Laid["row"], differences: string[], say: Say) {
  return (causes.enough ? causesIn(causes, say) : differences).slice(0, 3)
}
