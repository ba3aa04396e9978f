import { randomUUID } from "node:crypto"
import { addBakeDay } from "../server/bake-days/queries.ts"
import type { Db } from "../server/db.ts"
import { listRevisions } from "../server/formulas/queries.ts"
import { dayOf } from "../server/web/zones.ts"
import { idIn } from "./bench.ts"
import type { Cast } from "./cast.ts"
import type { ToldBake, ToldCase, ToldStage } from "./published/told-cases.ts"
import { type Page, wordsOf } from "./visitor.ts"

/** Where nobody told what rise to stop at, the class's usual one stands in: ours, not the baker's. */
export const ourTarget = 0.5

type Rise = { value: number; low: number; high: number }
/** What the page said at the end of the told bulk; `ready` is whether that was past the target, before it, or not said. */
export type Said = { words: string; rise?: Rise; ready: "since" | "about" | "no time"; asked: string }

/** Enters a told bake through the app, as its baker would at the end of the bulk, and looks at the estimate before and after the told rise is entered. */
export async function enterTold(db: Db, cast: Cast, told: ToldCase, bake: ToldBake) {
  // a stage without a length cannot be planned: that is asked for, and the stage left out
  const lengthy = bake.stages.map(([kind, name, lasts]): ToldStage => (lasts ? [kind, name, lasts] : ["", "", ""]))
  const formula = await sent(cast.ana.submit("/formulas", formulaFields(told, bake, bake.stages)))
  const { page } = await cast.ana.open(`${formula}/edit`)
  const doubts = page.querySelectorAll("#figures .cannot li, #figures .questions li, .problem").map(wordsOf)
  const unplanned = await cast.ana.submit(`${formula}/revisions`)
  const unpublished = unplanned.status === 303 ? "" : complaintsOn(unplanned)
  if (unpublished) {
    await sent(cast.ana.submit(formula, formulaFields(told, bake, lengthy)))
    const planned = await cast.ana.submit(`${formula}/revisions`)
    if (planned.status !== 303) return { doubts, unpublished: complaintsOn(planned), before: saidNothing }
  }
  const [revision] = await listRevisions(db, idIn(formula))
  const day = (offset: number) => dayOf(new Date(Date.now() + offset * 86_400_000), "Europe/Lisbon")
  const bakeDayId = await addBakeDay(db, {
    ...{ classId: cast.classId, revisionId: revision!.id, title: told.bread, lookFor: "", onTableTime: "18:00" },
    ...{ opensOn: day(-3), closesOn: day(3), targetDoughC: null, targetRise: bake.target ?? ourTarget },
  })
  const url = await sent(cast.ben.submit(`/bake-days/${bakeDayId}/bakes`))
  const read = (kind: string, more: Record<string, string>) =>
    sent(cast.ben.submit(`${url}/readings`, { entryId: randomUUID(), kind, ...more }))
  for (const { stage, from, to = "" } of bake.marks.filter(({ stage }) => !unpublished || isPlanned(lengthy, stage)))
    await sent(cast.ben.submit(`${url}/marks/${keyOf(bake, stage)}`, { startedAt: from, endedAt: to }))
  for (const { kind, value, known, when } of bake.readings) await read(kind, { value, known, takenAt: when })
  const before = saidOn(await cast.ben.open(url))
  if (!bake.rise) return { doubts, unpublished, before }
  await read("rise", { value: `${Math.round(bake.rise.share * 100)} %`, known: "felt", of: "bowl" })
  return { doubts, unpublished, before, after: saidOn(await cast.ben.open(url)) }
}

const saidNothing: Said = { words: "", ready: "no time", asked: "" }
const isPlanned = (stages: ToldStage[], kind: string) => stages.some((stage) => stage[0] === kind)

/** Where a form takes one on to; what it refuses ends here, with the reason. */
async function sent(answer: Promise<Page>) {
  const page = await answer
  if (page.status !== 303 || !page.location) throw new Error(`${page.status}: ${complaintsOn(page)}`)
  return page.location
}
const complaintsOn = ({ page }: Page) =>
  [...new Set(page.querySelectorAll(".error, [role=alert]").map(wordsOf).filter(Boolean))].join(" ")

const keyOf = ({ stages }: ToldBake, kind: string) => `s${stages.findIndex((stage) => stage[0] === kind)}`

function formulaFields({ bread }: ToldCase, { parts }: ToldBake, stages: ToldStage[]): Record<string, string> {
  const last = parts.length - 1
  const ofParts = parts.flatMap(({ name, stays = "", lines }, part) => [
    [`parts.${part}.key`, `p${part}`],
    [`parts.${part}.name`, name],
    [`parts.${part}.goesInto`, part < last ? `p${last}` : ""],
    [`parts.${part}.staysPercent`, stays],
    ...lines.flatMap(([quantity, ingredient], line) => [
      [`parts.${part}.lines.${line}.quantity`, quantity],
      [`parts.${part}.lines.${line}.ingredient`, ingredient],
    ]),
  ])
  const ofStages = stages.flatMap(([kind, name, lasts], at) =>
    kind
      ? [
          [`stages.${at}.key`, `s${at}`],
          [`stages.${at}.kind`, kind],
          [`stages.${at}.name`, name],
          [`stages.${at}.lasts`, lasts],
        ]
      : [],
  )
  return Object.fromEntries([["title", bread], ["measures", "us"], ...ofParts, ...ofStages])
}

function saidOn({ page }: Page): Said {
  const words = wordsOf(page.querySelector("#estimate"))
  const [, value, low, high] = /Now \+?(−?\d+) % \((−?\d+)–(−?\d+)\)/.exec(words) ?? []
  const share = (text: string | undefined) => Number(text?.replace("−", "-")) / 100
  const [, why, wants] = /No estimate (.*?) It would take (.*?)\.(?: Now|$)/.exec(words) ?? []
  return {
    words: words.replace(/ The numbers.*/, ""),
    ...(value ? { rise: { value: share(value), low: share(low), high: share(high) } } : {}),
    ready: /ready since about/.test(words) ? "since" : /ready about/.test(words) ? "about" : "no time",
    asked: wants ? `${wants} (${why})` : "",
  }
}

/**
 * Whether the estimate points the way the bulk went, and whether its range holds the rise that was told; undefined where one
 * of the two says nothing to compare.
 */
export function compare({ bulk, rise, target = ourTarget }: ToldBake, { ready, rise: said }: Said) {
  if (!said || ready === "no time") return {}
  const holds = said.low <= target && said.high >= target
  const directions = {
    "too far": ready === "since",
    "too short": ready === "about",
    "about right": holds,
    "": undefined,
  }
  return { direction: directions[bulk], rise: rise && rise.share >= said.low && rise.share <= said.high }
}
