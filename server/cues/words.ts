import type { Moment } from "../dough/verdict/cue.ts"
import type { Vessel } from "../schema.ts"

export const momentWords: Record<Moment, string> = {
  levain: "Levain, yeast",
  dough: "The dough, to the end of bulk",
  shaping: "At the bench",
  proof: "In proof",
  oven: "In the oven",
  crust: "Shape and crust",
  crumb: "Crumb",
  taste: "Taste",
  afterwards: "Cooling and cutting",
}

export const vesselWords: Record<Exclude<Vessel, "">, string> = {
  tin: "in a tin",
  hearth: "on a stone or tray",
  pot: "in a pot",
}
