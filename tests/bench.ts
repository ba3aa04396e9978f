import { randomUUID } from "node:crypto"
import type { Db } from "../server/db.ts"
import { wallTime } from "../server/web/zones.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

// What tests of the bench share. The cast lives by this clock.
export const zone = "Europe/Lisbon"
export const minutesAgo = (minutes: number) => new Date(Date.now() - minutes * 60_000)
export const idIn = (url: string) => Number(/\d+$/.exec(url)?.[0])
export const error = ({ page }: Page, field: string) => wordsOf(page.querySelector(`#${field}-error`))
export const typedIn = ({ page }: Page, field: string) => page.querySelector(`#${field}`)?.getAttribute("value")

/** A time as a form sends it. */
export const typedAgo = (minutes: number) => wallTime(minutesAgo(minutes), zone)

/** Ben starts a bake of the tin loaf. */
export async function started(db: Db, cast: Cast) {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  return { bakeDayId, url: location!, id: idIn(location!) }
}

/** Sends a reading as a fresh form does. */
export const read = (who: Visitor, url: string, fields: Record<string, string>) =>
  who.submit(`${url}/readings`, { entryId: randomUUID(), ...fields })
