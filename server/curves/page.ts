import { sayTo } from "../accounts/say.ts"
import { shownPlot } from "../plots/shown.ts"
import { type Asked, addressOf, askedIn } from "../table/asked.ts"
import { choicesOf, pickedFrom } from "../table/choices.ts"
import { grouped } from "../table/grouping.ts"
import { layBake } from "../table/laid.ts"
import { liningsOf } from "../table/linings.ts"
import type { TableBake } from "../table/queries.ts"
import { sorted } from "../table/sorting.ts"
import type { Subject } from "../table/subjects.ts"
import { traits } from "../table/traits.ts"
import { wordsFor } from "../table/words.ts"
import type { Viewer } from "../web/access.ts"
import { typedIn } from "../web/forms.ts"
import { coursesOf } from "./courses.ts"
import { commonOf, plotsOfBake, sharedPlots } from "./plots.ts"
import { kinds } from "./series.ts"

/** Everything the curves of a bake day show one person, as the address asks; the class's middle is of all they may see. */
export function curvesPage(bakes: TableBake[], subject: Subject, query: unknown, viewer: Viewer, now: Date) {
  const say = sayTo(viewer)
  const all = bakes.map((bake) => layBake(bake, now, say))
  const choices = choicesOf(
    all,
    traits.filter(({ key }) => key !== "day"),
  )
  const stages = new Map(
    [...subject.stages, ...all.flatMap(({ row }) => row.stages)].map((stage) => [stage.key, stage]),
  )
  const asked = askedIn({ lined: "start", ...typedIn(query) }, choices, [...stages.keys()])

  const courses = coursesOf(all, { lined: asked.lined, zone: subject.zone })
  const common = commonOf(courses)
  const shown = sharedPlots(courses, common)
  const cards = sorted(pickedFrom(all, asked.only), asked).map((item) => {
    const course = courses.each.find(({ laid }) => laid === item)!
    const plots = plotsOfBake(course, common)
    return {
      ...item,
      call: wordsFor(item.row, item.name, say, item.bake.zone).call,
      unmarked: course.unmarked,
      plots: kinds.map((kind) => ({
        kind,
        id: `b${item.bake.id}-${kind}`,
        ...shownPlot(plots[kind], viewer.temperatureUnit, coarse),
      })),
    }
  })
  return {
    ...{ subject, asked, choices, cards, count: all.length },
    items: cards,
    groups: grouped(cards, asked.by, say),
    linings: liningsOf(stages, subject, say),
    shared: kinds.map((kind) => ({
      kind,
      count: common.series[kind].length,
      ...shownPlot(shown[kind], viewer.temperatureUnit, coarse),
    })),
    noMiddle: [courses.rise, courses.dough].flatMap((band) => (band.enough ? [] : [band.why])),
    to: (change: Partial<Asked>) => `${subject.page}/curves?${addressOf({ ...asked, ...change })}`,
  }
}
// Of a thousand units a drawing as wide as a phone shows every third: tenths of them would only weigh.
const coarse = 1
