import { referenceHours } from "../fermentation/reference-hours.ts"
import { type CurvePoint, movingToward } from "../fermentation/temperature-curve.ts"
import { settlingHours } from "../fermentation/temperature-doubt.ts"
import { type AskedStage, askedOf } from "./asked.ts"
import type { DayQuestion, Load } from "./day.ts"

/** A stage as it is to be run: when it begins and ends. */
export type Timed = { startsAt: Date; endsAt: Date }

/** What a dough goes through in one stage; `hours` are reference hours. */
export type Through = { startC: number; endC: number; hours: number }

const minuteMs = 60_000

/**
 * The dough's temperature over a day whose stages have these times, up to the last load of the oven, and what each stage comes
 * to. A levain is as warm as its place, in the fridge it cools; the dough is as warm as told once it is mixed, and moves toward
 * its place from there. Throws RangeError like movingToward and referenceHours.
 */
export function courseOf(question: DayQuestion, times: Timed[], lastLoadAt?: Date) {
  const asked = askedOf(question)
  const curve: CurvePoint[] = []
  const through: Through[] = []
  for (const [index, one] of asked.entries()) {
    const { startsAt, endsAt } = times[index]!
    if (one.phase === "oven" || one.phase === "after") {
      const doughC = curve.at(-1)?.doughC ?? question.mixedC.value
      through.push({ startC: doughC, endC: doughC, hours: 0 })
      continue
    }
    const startC = comesAtC(question, asked, index, curve)
    const isLast = asked[index + 1]?.phase === "oven" && lastLoadAt !== undefined && lastLoadAt > endsAt
    const points = pointsOf(one, { at: startsAt, doughC: startC }, endsAt)
    if (one.phase !== "before" && asked[index - 1]?.phase !== one.phase && asked[index - 1]?.phase !== "mixing")
      points[0] = { ...points[0]!, known: question.mixedC.known }
    through.push({
      startC,
      endC: points.at(-1)!.doughC,
      hours: referenceHours(points, startsAt, endsAt, one.culture),
    })
    curve.push(...points)
    if (isLast) curve.push(...pointsOf(one, { at: endsAt, doughC: points.at(-1)!.doughC }, lastLoadAt))
  }
  return { asked, curve, through }
}

function comesAtC({ mixedC }: DayQuestion, asked: AskedStage[], index: number, curve: CurvePoint[]): number {
  const [own, before] = [asked[index]!, asked[index - 1]]
  if (own.phase === "before") return own.place === "fridge" && before ? curve.at(-1)!.doughC : own.placeC
  return before && before.phase !== "before" ? curve.at(-1)!.doughC : mixedC.value
}

/** One stage's points: two at least. */
function pointsOf({ phase, placeC }: AskedStage, from: { at: Date; doughC: number }, endsAt: Date): CurvePoint[] {
  const surroundingsC = phase === "mixing" ? from.doughC : placeC
  const points = movingToward(from, { surroundingsC, tauHours: settlingHours }, endsAt)
  return points.length ? points : [0, 1].map(() => ({ ...from, known: "assumed" as const }))
}

/**
 * The fillings of the oven, each with what waiting for it added: in the place, and from the temperature, where the dough was
 * when the first was loaded.
 */
export function loadsFrom(spans: Timed[], proof: { asked: AskedStage; doughC: number } | undefined): Load[] {
  const firstAt = spans[0]?.startsAt
  return spans.map(({ startsAt, endsAt }) => {
    const waitedMin = (+startsAt - +firstAt!) / minuteMs
    if (!proof || waitedMin <= 0) return { startsAt, endsAt, waitedMin, addedHours: 0 }
    const points = pointsOf(proof.asked, { at: firstAt!, doughC: proof.doughC }, startsAt)
    return { startsAt, endsAt, waitedMin, addedHours: referenceHours(points, firstAt!, startsAt, proof.asked.culture) }
  })
}
