import { riseOfMarks } from "../dough/fermentation/jar.ts"
import type { TimedRise } from "../dough/fermentation/prediction.ts"
import { readLength } from "../dough/readings.ts"
import type { Read } from "./warmth.ts"

/**
 * How far a rise may be off that no two marks on a jar stand behind, as a share of the starting volume, one standard
 * deviation: read in a bowl, whose sides are no measure, or judged by eye. Our own judgement.
 */
const bowlSd = 0.15
const byEyeSd = 0.2
/** How high a sample stands in its jar where only a percentage was given. Our own judgement. */
const usualStartMm = 60

/** The rises of the dough itself that count, from the volume it started with to `until`; what is of the levain does not. */
export function risesOf(readings: Read[], zeroAt: Date, until: Date): TimedRise[] {
  return readings
    .filter(({ kind, of, value }) => kind === "rise" && of !== "levain" && value !== null)
    .filter(({ takenAt }) => takenAt >= zeroAt && takenAt <= until)
    .map((reading) => ({
      at: reading.takenAt,
      rise: reading.value!,
      ...errorOf(reading, reading.value!),
      ...(reading.takenAboutMin ? { aboutMin: reading.takenAboutMin } : {}),
    }))
    .sort((a, b) => +a.at - +b.at)
}

/** A start mark that is typed the same again was set once, and is off by the same each time. */
function errorOf({ known, of, typed }: Read, rise: number): Pick<TimedRise, "sd" | "startMark"> {
  if (known !== "measured") return { sd: byEyeSd }
  if (of === "bowl") return { sd: bowlSd }
  const startMm = startIn(typed)
  if (startMm === undefined) return { sd: riseOfMarks({ startMm: usualStartMm, nowMm: usualStartMm * (1 + rise) }).sd }
  const { markSd } = riseOfMarks({ startMm, nowMm: startMm * (1 + rise) })
  return { sd: markSd, startMark: { name: `${startMm} mm`, sd: markSd } }
}

/** The start mark of "50 → 78 mm", in mm; undefined for what is no height, as "+50 %", or in nobody's unit. */
function startIn(typed: string): number | undefined {
  const [start, now] = typed.split(" → ")
  if (start === undefined || now === undefined) return undefined
  const unit = /[a-z"″′]+$/i.exec(start.trim())?.[0] ?? /[a-z"″′]+$/i.exec(now.trim())?.[0] ?? ""
  const read = readLength(`${/^[\d.,]+/.exec(start.trim())?.[0] ?? ""} ${unit}`)
  return "value" in read ? read.value : undefined
}
