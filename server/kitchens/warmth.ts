import { type Read, readTemperature, type TemperatureUnit } from "../dough/readings.ts"

/** How warm a place is in which a dough may stand, °C: a room that is not so cold that it would only freeze. */
export function readWarmth(text: string, unit: TemperatureUnit): Read<number> {
  const read = readTemperature(text, unit, "room")
  if ("error" in read || read.value >= coldestC) return read
  return { error: "A dough that stands there freezes; give a place where it can rise." }
}
// as fermentation/growth.ts has it
const coldestC = -5
