import type { Say } from "../accounts/say.ts"
import { listBakesBy } from "../bake-days/queries.ts"
import { lastOf } from "../bakes/log.ts"
import { listReadings, type Reading } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import type { ToMix } from "../dough/heat/to-mix.ts"
import { cToF } from "../dough/units.ts"
import type { Kitchen, Told } from "../kitchens/kitchen.ts"
import type { Warmth } from "../plans/basis.ts"
import type { OwnDay } from "../plans/day.ts"
import type { Begun } from "../web/begun.ts"
import { fieldOf } from "./forms.ts"

/** What somebody read on the bench of that day within the last hours, by their newest bake that goes on; [] without one. */
export async function readingsOfToday(db: Db, day: OwnDay, userId: number, now: Date): Promise<Reading[]> {
  const bakes = await listBakesBy(db, day.bakeDay.id, userId)
  const bake = bakes.find(({ finishedAt, abandonedAt }) => !finishedAt && !abandonedAt)
  const readings = bake ? await listReadings(db, bake.id) : []
  return readings.filter(({ takenAt }) => +now - +takenAt < stillSoMs)
}
// A kitchen changes in a morning. Our own choice.
const stillSoMs = 3 * 3_600_000

type Known = { doughC: number; mix: ToMix; kitchen: Kitchen; day?: OwnDay; readings: Reading[]; say: Say }

/** What the form begins with: read on the bench, of the own day, of the kitchen, or our own guesses; each says which. */
export function beginsWith({ doughC, mix, kitchen, day, readings, say }: Known): Begun {
  const isF = say.temperatureUnit === "F"
  const typed = (c: number) => String(Number((isF ? cToF(c) : c).toFixed(1)))
  const read = (reading: Reading) => ({
    typed: typed(reading.value!),
    from: `${knownWords[reading.known]} at ${say.time(reading.takenAt)}, on your bench.`,
  })
  const told = (one: Told<number>) => ({
    typed: typed(one.value),
    from: `${knownWords[one.known]}, as you told of your kitchen.`,
  })
  const guess = (c: string, f: string) => ({ typed: isF ? f : c, from: "Our guess." })

  const [room, levain] = [lastOf(readings, "room"), lastOf(readings, "levain")]
  const ofDay = day && roomOf(day.basis.places.room)
  const target = day?.bakeDay.targetDoughC ?? null
  const ferments = mix.things.find(({ key, ferments }) => ferments && key.startsWith("part."))
  const asItIs = mix.liquid.isWater ? kitchen.tapC : kitchen.fridgeC
  return {
    dough: target === null ? { typed: typed(doughC) } : { typed: typed(target), from: "What your class aims for." },
    room: room
      ? read(room)
      : ofDay
        ? { typed: typed(ofDay.c), from: "The room, as you say of that day." }
        : kitchen.roomC
          ? told(kitchen.roomC)
          : guess("21", "70"),
    liquid: asItIs ? told(asItIs) : guess("15", "60"),
    ice: guess("-18", "0"),
    kneading: { typed: "hand" },
    ...(levain && ferments ? { [fieldOf(ferments)]: read(levain) } : {}),
  }
}
const knownWords = { measured: "Measured", assumed: "Assumed", felt: "Felt, not measured," }

const roomOf = (room: Warmth) => (room.known === "that day" ? room : undefined)
