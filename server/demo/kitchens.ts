import { keepPlan } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import { readKitchen } from "../kitchens/forms.ts"
import type { Wishes } from "../plans/wishes.ts"
import { kitchens } from "../schema.ts"
import type { Typed } from "../web/forms.ts"
import { instantAt } from "../web/zones.ts"
import { hall, members } from "./people.ts"

const weekdays = ["busy.0.1", "busy.0.2", "busy.0.3", "busy.0.4", "busy.0.5"]
const workingHours = (from: string, to: string): Typed => ({
  ...Object.fromEntries(weekdays.map((day) => [day, "on"])),
  ...{ "busy.0.from": from, "busy.0.to": to },
})
const asleep = (from: string, to: string): Typed => ({ "sleep.from": from, "sleep.to": to })
const on = (...fields: string[]): Typed => Object.fromEntries(fields.map((field) => [`${field}.measured`, "on"]))

/** What some of the class have said of the kitchens that they bake in, as they typed it; the others have said nothing yet. */
const told: Record<string, Typed> = {
  amparo: {
    ...{ room: "24", fridge: "4", tap: "14", ...on("room", "fridge"), thermometer: "yes" },
    ...{ ovenSet: "230", ovenReads: "222", ovenHolds: "2", altitude: "90 m", scaleStep: "1 g" },
    ...{
      flours: "Strong white from the mill, wholemeal wheat",
      hydration: "100",
      jarKeeps: "20",
      ...asleep("23:30", "07:00"),
    },
  },
  bodil: {
    ...{
      room: "20",
      fridge: "5",
      cool: "12",
      coolPlace: "stairwell",
      tap: "10",
      ...on("room", "cool"),
      thermometer: "yes",
    },
    ...{ ovenHolds: "2", scaleStep: "1 g", hydration: "100", ...asleep("23:00", "06:30") },
  },
  caspar: {
    ...{
      room: "28",
      fridge: "5",
      cool: "19",
      coolPlace: "laundry",
      tap: "18",
      ...on("room", "tap"),
      thermometer: "yes",
    },
    ...{ ovenSet: "230", ovenReads: "240", ovenHolds: "2", scaleStep: "5 g", ...asleep("00:00", "07:30") },
  },
  eamon: {
    ...{ room: "18", proofer: "26", fridge: "4", tap: "9", ...on("room", "proofer"), thermometer: "yes" },
    ...{ ovenSet: "230", ovenReads: "215", ...on("ovenHolds"), ovenHolds: "1", scaleStep: "1 g" },
    ...{ ...asleep("22:30", "06:00"), ...workingHours("08:00", "13:00") },
  },
  hana: { room: "30", fridge: "3", tap: "22", thermometer: "no", ovenHolds: "2", ...asleep("23:00", "07:00") },
  juno: {
    ...{ room: "79", fridge: "38", tap: "61", ...on("room", "fridge"), thermometer: "yes", altitude: "300 ft" },
    ...{ ovenSet: "450", ovenReads: "435", ovenHolds: "2", scaleStep: "0.1 oz", flours: "Bread flour, whole wheat" },
    ...{ ...asleep("23:00", "07:00"), ...workingHours("09:00", "17:00") },
  },
  kasimir: { room: "23", thermometer: "no", scaleStep: "5 g" },
  lioba: { room: "22", fridge: "4", ...on("room"), thermometer: "yes", ovenHolds: "2", ...asleep("22:30", "06:30") },
}

type Place = { bakeDayId: number; ids: Map<string, number>; dayFromNow: (days: number) => string }

/** Kitchens, and two days that are kept already for the bake day to come. */
export async function addKitchens(db: Db, { bakeDayId, ids, dayFromNow }: Place) {
  const rows = Object.entries(told).map(([who, typed]) => {
    const { temperatureUnit = "C", massUnit = "g" } = members.find(({ signInName }) => signInName === who)!
    return { userId: ids.get(who)!, content: readKitchen(typed, { temperatureUnit, massUnit }).kitchen }
  })
  await db.insert(kitchens).values(rows)

  const keep = (who: string, day: string, time: string, zone: string, wishes: Wishes) =>
    keepPlan(db, bakeDayId, ids.get(who)!, { onTableAt: instantAt(`${day}T${time}`, zone)!, variant: "", wishes })
  const [day, next] = [dayFromNow(9), dayFromNow(10)]
  await keep("eamon", day, "19:30", hall.zone, {
    ...{ usualBusy: false, places: { bulk: "proofer", proof: "proofer" } },
    busy: [{ from: `${day}T09:00`, to: `${day}T10:00` }],
  })
  await keep("juno", next, "13:00", "America/New_York", { cold: { stageKey: "proof", lowMin: 480, highMin: 780 } })
}
