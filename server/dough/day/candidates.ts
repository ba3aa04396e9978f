import type { Range } from "../amounts.ts"
import { type Ratio, shareOfRatio } from "../fermentation/sourdough-rise.ts"
import { type AskedStage, askedOf } from "./asked.ts"
import { loadsOf } from "./chain.ts"
import type { Change, DayQuestion, Place, Suggestion } from "./day.ts"

/**
 * One change that may make a day fit. `effort` is how much of a change it is, in minutes of being late that somebody would
 * as soon put up with: our own judgement throughout.
 */
export type Candidate = Pick<Suggestion, "kind" | "moves"> & { change: Change; effort: number }

/** Every change of a day but of its times, the least first: another feeding, place, cold or fewer loads. Throws like askedOf. */
export function candidatesFor(question: DayQuestion): Candidate[] {
  const asked = askedOf(question)
  const all = [
    ...feedings(question),
    ...moves(question, asked),
    ...colds(question, asked),
    ...fewerLoads(question, asked),
  ]
  return all.sort((a, b) => a.effort - b.effort)
}

// From as much flour as starter to ten times as much: what is fed in kitchens. Common practice, no published source.
const usualFlours = [1, 2, 3, 5, 10]

/** Other feedings for one part of starter, as wet as the written one. */
function feedings({ levain }: DayQuestion): Candidate[] {
  if (!levain) return []
  const { fed, written, starterHydration } = levain
  const wetness = written.flour > 0 ? written.water / written.flour : 1
  const share = (ratio: Ratio) => shareOfRatio(ratio, starterHydration)
  return usualFlours.flatMap((flour): Candidate[] => {
    const ratio = { starter: 1, flour, water: flour * wetness }
    const apart = Math.abs(Math.log2(share(ratio) / share(fed)))
    return apart < 0.1 ? [] : [{ kind: "levain", change: { fed: ratio }, effort: 20 + 20 * apart }]
  })
}

/** A stage that temperature drives, or all of them, somewhere else. The fridge is no such place, see colds. */
function moves({ places, placeOf }: DayQuestion, asked: AskedStage[]): Candidate[] {
  const movable = asked.filter(({ wanted, cold }) => wanted && !cold)
  const others = (["room", "proofer", "cool"] as const).filter((place) => places[place] !== undefined)
  return others.flatMap((to) => {
    const moving = movable.filter(({ place }) => place !== to)
    const groups = moving.length > 1 ? [...moving.map((one) => [one]), moving] : moving.map((one) => [one])
    return groups.map((group): Candidate => {
      const change = { placeOf: { ...placeOf, ...Object.fromEntries(group.map(({ stage }) => [stage.key, to])) } }
      const apartC = Math.max(...group.map(({ placeC }) => Math.abs(placeC - (places[to] ?? placeC))))
      return { kind: "place", change, moves: group.map(moved(to)), effort: 20 + 10 * group.length + apartC }
    })
  })
}
const moved =
  (to: Place) =>
  ({ stage, place }: AskedStage) => ({ stageKey: stage.key, from: place, to })

// A night first, which is what people do; then what else a fridge is used for. Our own judgement.
const coldHours: Range[] = [
  { low: 8, high: 16 },
  { low: 4, high: 8 },
  { low: 2, high: 4 },
  { low: 16, high: 30 },
]

/** A bulk or proof through the fridge, the later one first; where one goes there already, for longer or shorter. */
function colds({ places, cold }: DayQuestion, asked: AskedStage[]): Candidate[] {
  if (places.fridge === undefined) return []
  const fermenting = asked.filter(({ wanted, phase }) => wanted && phase === "dough")
  return fermenting.toReversed().flatMap(({ stage, place }, index) =>
    coldHours.flatMap(({ low, high }, at): Candidate[] => {
      const min = { low: low * 60, high: high * 60 }
      const isSame = cold?.stageKey === stage.key && cold.min.low === min.low && cold.min.high === min.high
      if (isSame) return []
      const moves = place === "fridge" ? [] : [{ stageKey: stage.key, from: place, to: "fridge" as const }]
      return [
        { kind: "cold", change: { cold: { stageKey: stage.key, min } }, moves, effort: 90 + 20 * index + 15 * at },
      ]
    }),
  )
}

/** Fewer loads: less bread, or a fuller oven. */
function fewerLoads(question: DayQuestion, asked: AskedStage[]): Candidate[] {
  if (!asked.some(({ phase }) => phase === "oven")) return []
  const loads = loadsOf(question)
  const fewer = [loads - 1, loads - 2, Math.ceil(loads / 2), Math.ceil(loads / 4), 2, 1]
  const tried = [...new Set(fewer)].filter((one) => one > 0 && one < loads)
  return tried.map((one) => ({ kind: "oven", change: { loads: one }, effort: 120 * (loads - one) }))
}
