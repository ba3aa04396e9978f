import type { Read } from "../dough/readings.ts"

/** A height above the sea in metres from "650", "650 m" or "2,100 ft"; from −450 to 5500 m, where people live and bake. */
export function readAltitude(text: string): Read<number> {
  const [, sign, digits, unit] =
    /^([-−]?)(\d+(?:[ ,.'’]\d{3})*(?:\.\d)?) ?(m|meters?|metres?|ft|feet|foot)?\.?$/i.exec(text.trim()) ?? []
  if (!digits) return { error: "Give the height in m or ft, such as 650 m or 2100 ft." }
  const number = Number(digits.replace(/[ ,'’]|\.(?=\d{3})/g, "")) * (sign ? -1 : 1)
  const metres = unit?.toLowerCase().startsWith("f") ? number * metresPerFoot : number
  return metres >= lowestM && metres <= highestM
    ? { value: metres }
    : { error: "Nobody bakes at that height; check the number and its unit." }
}
// exact: NIST SP 811, Appendix B.8
const metresPerFoot = 0.3048
const [lowestM, highestM] = [-450, 5500]
