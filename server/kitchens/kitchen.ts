/** Something told of a kitchen, how it is known, and exactly what was typed. */
export type Told<Value> = { value: Value; known: "measured" | "assumed"; typed: string }

/** Wall times of every day or of some weekdays (1 Monday to 7 Sunday); `to` before `from` runs past midnight. */
export type Weekly = { days: number[]; from: string; to: string }

/** One person's kitchen. Temperatures in °C; what is not there is unknown. */
export type Kitchen = {
  roomC?: Told<number>
  /** A box, an oven with its light on: whatever keeps dough warm. */
  prooferC?: Told<number>
  fridgeC?: Told<number>
  /** A cold place that is no freezer and no fridge: a cellar, a porch. */
  coolC?: Told<number>
  coolPlace?: string
  tapC?: Told<number>
  /** What the oven's own scale was set to, and what a thermometer in it read. */
  oven?: Told<{ setC: number; readsC: number }>
  /** Loaves or trays that go into the oven at once. */
  ovenHolds?: Told<number>
  altitudeM?: Told<number>
  /** The smallest step that the scale shows, g. */
  scaleStepG?: Told<number>
  thermometer?: boolean
  flours?: string
  /** Water on flour in the starter that is kept, and what of it stays in the jar each time, g. */
  starterHydration?: Told<number>
  jarKeepsG?: Told<number>
  sleep?: { from: string; to: string }
  busy?: Weekly[]
}
