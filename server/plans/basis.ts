import type { Place } from "../dough/day/day.ts"

/** How a temperature of the kitchen is known: said of that day, said of the kitchen, or taken for granted by us. */
export type Known = "that day" | "measured" | "assumed" | "taken"
export type Warmth = { c: number; known: Known }

/** What a mixed dough comes out at, °C, and what its water has to be for that. */
export type Mixed = {
  doughC: number
  wantedC: number
  /** Whether water brings it to what is wanted, stops short of it, or nobody knows for lack of amounts. */
  by: "water" | "as near as water can" | "unknown"
  waterC?: number
  tap: Warmth
}

/** What a day rests on, for the page that says so. */
export type Basis = {
  places: { room: Warmth } & Partial<Record<Place, Warmth>>
  mixed: Mixed
  pieces: number
  /** How many go into the oven at once; undefined: not known, and so taken for all. */
  ovenHolds?: number
}
