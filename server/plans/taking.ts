import { z } from "zod"
import type { Change, Suggestion } from "../dough/day/day.ts"
import { wallTime } from "../web/zones.ts"
import type { DayAsked } from "./own-day.ts"
import type { Wishes } from "./wishes.ts"

const instant = z.iso.datetime().transform((text) => new Date(text))
const minutes = z.number().min(0).max(20_160)
const parts = z.number().min(0).max(10_000)
const changeForm = z.object({
  placeOf: z.record(z.string().max(60), z.enum(["room", "proofer", "cool", "fridge"])).optional(),
  cold: z.object({ stageKey: z.string().max(60), min: z.object({ low: minutes, high: minutes }) }).optional(),
  onTableBy: instant.optional(),
  notBefore: instant.optional(),
  loads: z.number().int().min(1).max(1000).optional(),
  fed: z.object({ starter: parts, flour: parts, water: parts }).optional(),
})

/** A suggestion as the button carries it that takes it. */
export const changeInWords = ({ change }: Suggestion): string => JSON.stringify(change)

/** The same read back; undefined for what is none. */
export function readChange(text: string): Change | undefined {
  try {
    const { success, data } = changeForm.safeParse(JSON.parse(text))
    return success ? (withoutBlanks(data) as Change) : undefined
  } catch {
    return undefined
  }
}
const withoutBlanks = (change: object) =>
  Object.fromEntries(Object.entries(change).filter(([, value]) => value !== undefined))

type Day = Pick<DayAsked, "onTableAt" | "variant" | "wishes" | "zone">

/** A day with that change in it; fewer fillings of the oven are fewer pieces. */
export function taken<Asked extends Day>(day: Asked, change: Change, ovenHolds: number | undefined): Asked {
  const { placeOf, cold, onTableBy, notBefore, loads, fed } = change
  const wishes: Wishes = {
    ...day.wishes,
    ...(placeOf ? { places: placeOf } : {}),
    ...(cold ? { cold: { stageKey: cold.stageKey, lowMin: cold.min.low, highMin: cold.min.high } } : {}),
    ...(notBefore ? { notBefore: wallTime(notBefore, day.zone) } : {}),
    ...(loads && ovenHolds ? { pieces: loads * ovenHolds } : {}),
    ...(fed ? { feeding: fed } : {}),
  }
  return { ...day, wishes, onTableAt: onTableBy ? wholeMinute(onTableBy) : day.onTableAt }
}
/** As a field can say it, and no earlier. */
const wholeMinute = (at: Date) => new Date(Math.ceil(+at / 60_000) * 60_000)
