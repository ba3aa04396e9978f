import type { AskedStage } from "./asked.ts"
import { loadsOf, longestMin, waitsForOven } from "./chain.ts"
import type { Broken, DayPlan, DayQuestion, DayStage, StageTrouble } from "./day.ts"
import { courseOf, loadsFrom, type Through } from "./written-out.ts"

/**
 * What a plan breaks of what was asked; [] when it keeps everything. It goes by the plan's times alone and reckons the dough's
 * temperature and hours along them anew; how the plan was found it does not know. Throws RangeError for other stages than the
 * question's, and like courseOf.
 */
export function checkDay(question: DayQuestion, plan: DayPlan): Broken[] {
  const { stages, loads } = plan
  const keys = stages.map(({ stage }) => stage.key).join()
  if (keys !== question.stages.map(({ key }) => key).join()) throw new RangeError("the plan has other stages")
  const { asked, through } = courseOf(question, stages, loads.at(-1)?.startsAt)
  const troubles = stages.flatMap((planned, index): Broken[] => {
    const why =
      troubleOf(planned, asked[index]!, through[index]!, stages[index + 1]) ?? nobodyAt(planned, asked, index, plan)
    const { place, placeC } = asked[index]!
    return why ? [{ what: "stage", stageKey: planned.stage.key, place, placeC, why }] : []
  })
  return [
    ...late(question, plan),
    ...early(question, plan),
    ...stages.flatMap((planned) => hindered(question, planned)),
    ...tooLongForOven(plan, asked, through),
    ...ovenTroubles(question, plan, asked),
    ...troubles,
  ]
}

const minuteMs = 60_000
const minutesBetween = (from: Date, to: Date) => (+to - +from) / minuteMs
// A second, in minutes, for sums of minutes; and what the pieces of a temperature curve may be off by, in hours.
const sameMin = 1 / 60
const sameHours = (hours: number) => 0.01 + 0.002 * hours

function late({ onTableBy }: DayQuestion, { onTableAt, stages }: DayPlan): Broken[] {
  const byMin = minutesBetween(onTableBy, stages.at(-1)?.endsAt ?? onTableAt)
  return byMin > sameMin ? [{ what: "on the table by", byMin }] : []
}

function early({ notBefore, now }: DayQuestion, { startsAt, stages }: DayPlan): Broken[] {
  const begins = stages[0]?.startsAt ?? startsAt
  const byMin = Math.max(...[notBefore, now].map((at) => (at ? minutesBetween(begins, at) : 0)))
  return byMin > sameMin ? [{ what: "not before", byMin }] : []
}

/** The hands-on moments that fall into time away, each with the part of that time that would have to be free. */
function hindered({ away }: DayQuestion, { stage, handsOn }: DayStage): Broken[] {
  return handsOn.flatMap((moment) =>
    away.flatMap(({ from, to, why }): Broken[] => {
      if (!(moment.from < to && from < moment.to)) return []
      const [atItsBeginning, atItsEnd] = [minutesBetween(from, moment.to), minutesBetween(moment.from, to)]
      const [short, long] = [Math.max(+from, +moment.from), Math.min(+to, +moment.to)]
      if ((long - short) / minuteMs <= sameMin) return []
      const cut = atItsBeginning < atItsEnd ? { from, to: moment.to } : { from: moment.from, to }
      return [{ what: why, stageKey: stage.key, ...cut, byMin: Math.ceil(Math.min(atItsBeginning, atItsEnd)) }]
    }),
  )
}

/** Loads after the first whose pieces have gone further, or waited longer, than their proof may. */
function tooLongForOven({ stages, loads }: DayPlan, asked: AskedStage[], through: Through[]): Broken[] {
  const at = asked.findLastIndex(waitsForOven)
  const proof = stages[at]
  if (!proof) return []
  const { minutes, wanted } = asked[at]!
  const { hours, endC } = through[at]!
  return loadsFrom(loads, { asked: asked[at]!, doughC: endC }).flatMap(({ waitedMin, addedHours }, index): Broken[] => {
    if (index === 0) return []
    const over = wanted ? hours + addedHours - wanted.high : 0
    const tooFarMin = over > (wanted ? sameHours(wanted.high) : 0) ? (over * waitedMin) / addedHours : 0
    const tooLongMin = wanted ? 0 : minutesBetween(proof.startsAt, proof.endsAt) + waitedMin - minutes.high
    const byMin = Math.ceil(Math.max(tooFarMin, tooLongMin) - sameMin)
    return byMin > 0 ? [{ what: "oven", load: index + 1, byMin }] : []
  })
}

/** Loads that are not as many as asked for, one after the other, each as long as a bake. */
function ovenTroubles(question: DayQuestion, { stages, loads }: DayPlan, asked: AskedStage[]): Broken[] {
  const oven = asked.flatMap(({ phase }, index) => (phase === "oven" ? [index] : []))
  const [first, last] = [oven[0], oven.at(-1)]
  if (first === undefined || last === undefined) return []
  const [low, high] = (["low", "high"] as const).map((end) => oven.reduce((sum, i) => sum + asked[i]!.minutes[end], 0))
  const wrong = (why: StageTrouble): Broken[] => {
    const { stage, place, placeC } = asked[last]!
    return [{ what: "stage", stageKey: stage.key, place, placeC, why }]
  }
  if (loads.length < loadsOf(question)) return wrong("too short")
  for (const [index, { startsAt, endsAt }] of loads.entries()) {
    const before = loads[index - 1]?.endsAt ?? stages[first]!.startsAt
    if (Math.abs(minutesBetween(before, startsAt)) > sameMin) return wrong("too long")
    if (minutesBetween(startsAt, endsAt) < low! - sameMin) return wrong("too short")
    if (minutesBetween(startsAt, endsAt) > high! + sameMin) return wrong("too long")
  }
  return Math.abs(minutesBetween(loads.at(-1)!.endsAt, stages[last]!.endsAt)) > sameMin ? wrong("too long") : []
}

/** Whether a stage takes the minutes, comes to the hours, and leads to the next, as it should. */
function troubleOf(
  { startsAt, endsAt }: DayStage,
  { minutes, wanted, cold, phase }: AskedStage,
  { hours }: Through,
  next: DayStage | undefined,
): StageTrouble | undefined {
  const min = minutesBetween(startsAt, endsAt)
  if (next && Math.abs(minutesBetween(endsAt, next.startsAt)) > sameMin)
    return endsAt < next.startsAt ? "too short" : "too long"
  const free = wanted && !cold ? { low: 0, high: longestMin } : minutes
  if (min < free.low - sameMin) return "too short"
  // the last bake of several loads goes on until all are out
  if (phase !== "oven" && min > free.high + sameMin) return "too long"
  if (wanted && hours < wanted.low - sameHours(wanted.low)) return "too cold"
  if (wanted && hours > wanted.high + sameHours(wanted.high)) return "too warm"
  return undefined
}

/** Whether the plan forgets somebody: to begin, to fold in the first half, to carry the dough elsewhere, at the oven. */
function nobodyAt(planned: DayStage, asked: AskedStage[], index: number, { loads }: DayPlan): StageTrouble | undefined {
  const { stage, startsAt, endsAt, handsOn } = planned
  const [own, before, after] = [asked[index]!, asked[index - 1], asked[index + 1]]
  const beginsAt = (at: Date) => handsOn.some(({ from, to }) => Math.abs(+from - +at) <= 1000 && to > from)
  const endsBy = (at: Date) => handsOn.some(({ from, to }) => Math.abs(+to - +at) <= 1000 && to > from)
  if (own.phase === "oven") {
    const isLoaded = before?.phase === "oven" || beginsAt(startsAt)
    const isEmptied = after?.phase === "oven" || loads.every((load) => endsBy(load.endsAt))
    return isLoaded && isEmptied ? undefined : "nobody there"
  }
  const neededMin = Math.min(stage.handsOnMin, minutesBetween(startsAt, endsAt))
  const doneMin = handsOn.reduce((sum, { from, to }) => sum + minutesBetween(from, to), 0)
  if (doneMin < neededMin - sameMin) return "nobody there"
  const isCarried = before && before.phase !== "oven" && own.phase !== "after" && before.place !== own.place
  const isFolded = stage.kind === "bulk" && !isCarried
  const halfway = (+startsAt + +endsAt) / 2
  if (isFolded && !beginsAt(startsAt)) return handsOn.every(({ to }) => +to <= halfway) ? undefined : "nobody there"
  return neededMin > 0 || isCarried ? (beginsAt(startsAt) ? undefined : "nobody there") : undefined
}
