import { createHash } from "node:crypto"
import type { Say } from "../accounts/say.ts"
import type { OwnDay } from "../plans/day.ts"
import { placeNames } from "../plans/words.ts"
import { type Alarm, alarmsFor, type Lead } from "./alarms.ts"
import { type Moment, momentsOf } from "./moments.ts"
import { uuidOf } from "./uid.ts"
import { linesOf } from "./words.ts"

export type CalendarEvent = {
  uid: string
  sequence: number
  /** When the plan last moved; not there while nobody has kept one. */
  movedAt?: Date
  from: Date
  to?: Date
  summary: string
  description: string
  url: string
  /** The person has kept this plan; else it is what the instructor suggests. */
  chosen: boolean
  busy: boolean
  alarms: Alarm[]
}

/** How far a person's plan has moved since a calendar was first given it; undefined while nobody has kept one. */
export type Version = { sequence: number; movedAt: Date } | undefined

type Told = { userId: number; bakeId?: number; version: Version; lead: Lead; publicUrl: string; say: Say }

/** One person's own day as events of a calendar; none where no day can be reckoned. */
export function eventsOf(day: OwnDay, { userId, bakeId, version, lead, publicUrl, say }: Told): CalendarEvent[] {
  const { bakeDay } = day
  const url = `${publicUrl}/bake-days/${bakeDay.id}/plan`
  const links = [`Your day: ${url}`, bakeId && `Your bench: ${publicUrl}/bakes/${bakeId}`]
  const standing = [
    !day.kept && "This is the instructor's suggestion; say when you want it on the table, and the times follow.",
    !day.answer.fits && "Not everything fits yet; your day says what does not, and what would help.",
  ]
  return momentsIn(day).map((moment, at) => ({
    uid: uuidOf(`${url}#${userId}/${moment.what === "table" ? "table" : "stage"}/${moment.stageKey}/${moment.nth}`),
    ...{ sequence: version?.sequence ?? 0, ...(version && { movedAt: version.movedAt }) },
    ...{ from: moment.from, ...(moment.to && { to: moment.to }) },
    summary: `${moment.name}: ${bakeDay.formulaTitle}`,
    description: paragraphs(
      linesOf(moment, { say, places: placeNames(day.kitchen) }),
      [`${bakeDay.title} · ${bakeDay.className}`, ...standing],
      links,
    ),
    ...{ url, chosen: day.kept, busy: moment.what !== "table" },
    alarms: alarmsFor(moment, { first: at === 0, lead, say }),
  }))
}

/** What tells whether a day has moved: when what is to be done where, whatever else is said of it. */
export function digestOf(day: OwnDay): string {
  const told = momentsIn(day).map((moment) => [
    ...[moment.stageKey, moment.nth, +moment.from, moment.to ? +moment.to : 0],
    ...[
      `${moment.name}: ${day.bakeDay.formulaTitle}`,
      moment.stage?.place ?? "",
      moment.leftAlone.map(({ place }) => place),
    ],
  ])
  return createHash("sha256").update(JSON.stringify(told)).digest("base64url")
}

const momentsIn = ({ answer: { plan } }: OwnDay): Moment[] => (plan ? momentsOf(plan) : [])

const paragraphs = (...groups: (string | number | false | undefined)[][]) =>
  groups
    .map((lines) => lines.filter(Boolean).join("\n"))
    .filter(Boolean)
    .join("\n\n")
