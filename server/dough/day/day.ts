import type { Range } from "../amounts.ts"
import type { Culture } from "../fermentation/growth.ts"
import type { Ratio } from "../fermentation/sourdough-rise.ts"
import type { CurvePoint } from "../fermentation/temperature-curve.ts"
import type { PlannedStage, Stage } from "../schedule.ts"

/** Where a dough stands. */
export type Place = "room" | "proofer" | "cool" | "fridge"

/** Time in which nobody can put hands on the dough. */
export type Away = { from: Date; to: Date; why: "busy" | "asleep" }

/**
 * One person's day, asked for. Temperatures in °C. `placeOf` says by a stage's key where it stands: else in the room, a
 * retard in the fridge. `mixedC` is the dough's own temperature when it has been mixed. `loads` is how often the oven is
 * filled; the pieces that wait go on fermenting.
 */
export type DayQuestion = {
  stages: Stage[]
  culture: Culture
  places: { room: number } & Partial<Record<Place, number>>
  placeOf?: Record<string, Place>
  /** The stage that mixes the dough itself; left out, the last mixing before its bulk or proof. What comes before is levain. */
  mixKey?: string
  mixedC: { value: number; known: "measured" | "assumed" }
  onTableBy: Date
  notBefore?: Date
  /** Nothing begins before it, and no change that is suggested does: what is over cannot be made up for. */
  now?: Date
  away: Away[]
  loads: number
  /** A stage that goes through the fridge instead, for so many minutes. */
  cold?: { stageKey: string; min: Range }
  /** The levain's own stage, how it is fed as written and how it is to be fed. */
  levain?: { stageKey: string; written: Ratio; fed: Ratio; starterHydration: number }
}

/** A stage of that day. `hours` are reference hours; `handsOn` the moments in which somebody must be there. */
export type DayStage = PlannedStage & {
  place: Place
  startC: number
  endC: number
  hours: number
  /** What the formula asks for at the middle of its range; undefined for a stage that temperature does not drive. */
  wantedHours?: number
  /** Between how many reference hours this stage has to come; undefined where only its minutes are given, as in a retard. */
  wantedRange?: Range
  handsOn: { from: Date; to: Date }[]
}

/** One filling of the oven: how long its pieces waited for it, and the reference hours that this added. */
export type Load = { startsAt: Date; endsAt: Date; waitedMin: number; addedHours: number }

export type DayPlan = { stages: DayStage[]; curve: CurvePoint[]; loads: Load[]; startsAt: Date; onTableAt: Date }

/** What keeps a day from working, and by how much. */
export type Broken =
  | { what: "on the table by"; byMin: number }
  | { what: "not before"; byMin: number }
  /** That much of the time away, at its beginning or its end, would have to be free for this stage. */
  | { what: "busy" | "asleep"; stageKey: string; from: Date; to: Date; byMin: number }
  /** The pieces of this load, 2 or more, wait so long past the most that their proof may be. */
  | { what: "oven"; load: number; byMin: number }
  /** Where it stands, this stage does not come to what it should. */
  | { what: "stage"; stageKey: string; place: Place; placeC: number; why: StageTrouble }

/**
 * "too cold": it does not get there in two days, or in the time in the cold that was asked for. "too warm": it has gone too
 * far before that time is over. The rest says that a plan was not made for its question, and only `checkDay` says it.
 */
export type StageTrouble = "too cold" | "too warm" | "too short" | "too long" | "nobody there"

/** The part of a question that a suggestion changes; taken whole, the day fits. */
export type Change = Pick<Partial<DayQuestion>, "placeOf" | "cold" | "onTableBy" | "notBefore" | "loads"> & {
  fed?: Ratio
}
export type SuggestionKind = "levain" | "place" | "start earlier" | "cold" | "later" | "oven"
/**
 * `also` when it takes two changes, the second one's kind. What `change` comes to, to be told: the stages that move, from
 * one place to another; how many minutes later on the table, or earlier begun.
 */
export type Suggestion = {
  kind: SuggestionKind
  also?: SuggestionKind
  change: Change
  moves?: { stageKey: string; from: Place; to: Place }[]
  laterMin?: number
  earlierMin?: number
  plan: DayPlan
}

/**
 * A day that fits, or the nearest one with what it breaks, the least first, and the smallest changes that make it fit. Of what
 * is broken any one alone would have to give way; where it is `together`, all of it.
 */
export type DayAnswer =
  | { fits: true; plan: DayPlan }
  | { fits: false; plan: DayPlan | undefined; broken: Broken[]; together?: true; suggestions: Suggestion[] }
