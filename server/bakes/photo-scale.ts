import { z } from "zod"
import { readLength } from "../dough/readings.ts"
import { maybeReadBy } from "../web/forms.ts"

// What a picture of bread can be of: from a few pores to a table of loaves. Our own limits.
const [leastMm, mostMm] = [10, 2000]

/** "40 %", "40": how much of the picture's width something takes. */
function readPercent(text: string): { value: number } | { error: string } {
  const match = /^(\d{1,3}(?:[.,]\d+)?)\s*%?$/.exec(text.trim())
  if (!match) return { error: "Give a per cent of the width, such as 40 %." }
  const percent = Number(match[1]!.replace(",", "."))
  return percent >= 1 && percent <= 100 ? { value: percent } : { error: "It covers between 1 and 100 % of the width." }
}

/**
 * How wide what a photo shows is, in one of two ways: all of it at once, or a known length and how much of the width it
 * covers. Blank fields take back what was said.
 */
export const photoScaleForm = z
  .object({
    acrossMm: maybeReadBy(readLength),
    knownMm: maybeReadBy(readLength),
    knownPercent: maybeReadBy(readPercent),
  })
  .transform(({ acrossMm, knownMm, knownPercent }, context) => {
    const refuse = (path: string, message: string) => {
      context.addIssue({ code: "custom", path: [path], message })
      return z.NEVER
    }
    if (acrossMm !== null && (knownMm !== null || knownPercent !== null))
      return refuse("acrossMm", "Say it one way or the other, not both.")
    if (knownMm !== null && knownPercent === null) return refuse("knownPercent", "Say how much of the width it covers.")
    if (knownPercent !== null && knownMm === null) return refuse("knownMm", "Say how long what covers it is.")
    const across = knownMm !== null && knownPercent !== null ? (knownMm * 100) / knownPercent : acrossMm
    if (across !== null && (across < leastMm || across > mostMm))
      return refuse(
        acrossMm === null ? "knownMm" : "acrossMm",
        `The whole picture would be ${Math.round(across)} mm across; bread is seen between 10 mm and 2000 mm wide.`,
      )
    return { acrossMm: across, ruler: null }
  })
