import type { Place } from "../dough/day/day.ts"

/** What one person wants of their own day, for one bake day; wall times ("2026-11-14T07:00") are by that person's clock. */
export type Wishes = {
  /** The room that day, °C, where it is not as usual, and exactly what was typed. */
  roomC?: number
  roomTyped?: string
  notBefore?: string
  /** Beside the busy hours of the kitchen, or instead of them. */
  busy?: { from: string; to: string }[]
  usualBusy?: false
  /** Where a stage stands, by its key; the rest stands in the room. */
  places?: Record<string, Place>
  /** A stage that goes through the fridge instead, and for how many minutes. */
  cold?: { stageKey: string; lowMin: number; highMin: number }
  /** The feeding of the levain, in parts. */
  feeding?: { starter: number; flour: number; water: number }
  /** How many pieces or tins are baked, and how many at a time. */
  pieces?: number
  ovenHolds?: number
}
