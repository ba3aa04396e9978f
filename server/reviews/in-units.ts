import { type Say, sayTo } from "../accounts/say.ts"

type Units = `${"C" | "F"} ${"g" | "oz"}`
/** Words that hold figures, kept once for every pair of units that somebody may read them in. */
export type InUnits<Words> = Record<Units, Words>

/** What `words` says to readers of each pair of units. */
export function inUnits<Words>(words: (say: Say) => Words): InUnits<Words> {
  const to = (temperatureUnit: "C" | "F", massUnit: "g" | "oz") =>
    words(sayTo({ ...nobody, temperatureUnit, massUnit }))
  return { "C g": to("C", "g"), "C oz": to("C", "oz"), "F g": to("F", "g"), "F oz": to("F", "oz") }
}
const nobody = { id: 0, signInName: "", isOwner: false, measures: "metric" as const, zone: "UTC" }

export const readIn = <Words>(kept: InUnits<Words>, viewer: { temperatureUnit: "C" | "F"; massUnit: "g" | "oz" }) =>
  kept[`${viewer.temperatureUnit} ${viewer.massUnit}`]
