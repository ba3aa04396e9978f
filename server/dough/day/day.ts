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
  mixedC: { value: number; known: "measured" | "assumed" }
  onTableBy: Date
  notBefore?: Date
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
  handsOn: { from: Date; to: Date }[]
}

/** One filling of the oven: how long its pieces waited for it, and the reference hours that this added. */
export type Load = { startsAt: Date; endsAt: Date; waitedMin: number; addedHours: number }

export type DayPlan = { stages: DayStage[]; curve: CurvePoint[]; loads: Load[]; startsAt: Date; onTableAt: Date }

/** What keeps a day from working, and by how much. */
export type Broken =
  | { what: "on the table by"; byMin: number }
  | { what: "not before"; byMin: number }
  | { what: "busy" | "asleep"; stageKey: string; from: Date; to: Date; byMin: number }
  | { what: "oven"; load: number; byMin: number }
  /** It is too warm or too cold anywhere for this stage to come to what it should. */
  | { what: "stage"; stageKey: string; why: string }

/** The part of a question that a suggestion changes; taken whole, the day fits. */
export type Change = Pick<Partial<DayQuestion>, "placeOf" | "cold" | "onTableBy" | "notBefore" | "loads"> & {
  fed?: Ratio
}
export type SuggestionKind = "levain" | "place" | "start earlier" | "cold" | "later" | "oven"
export type Suggestion = { kind: SuggestionKind; change: Change; plan: DayPlan }

/** A day that fits, or the nearest one with what it breaks, the least first, and the smallest changes that make it fit. */
export type DayAnswer =
  | { fits: true; plan: DayPlan }
  | { fits: false; plan: DayPlan | undefined; broken: Broken[]; suggestions: Suggestion[] }
