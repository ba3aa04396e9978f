import ICAL from "ical.js"
import { sayTo } from "../server/accounts/say.ts"
import { type Lead, usualLead } from "../server/calendar/alarms.ts"
import { eventsOf, type Version } from "../server/calendar/events.ts"
import { calendarFile } from "../server/calendar/file.ts"
import type { DayPlan, DayStage } from "../server/dough/day/day.ts"
import { countBack, type Stage } from "../server/dough/schedule.ts"
import type { OwnDay } from "../server/plans/day.ts"
import { tinLoaf } from "./class-day.ts"

/** A calendar's file as ical.js reads it, which shares no code with us: strictly, so that what is wrong throws. */
export function readCalendar(file: string) {
  const calendar = new ICAL.Component(ICAL.parse(file) as unknown as unknown[])
  return {
    name: calendar.getFirstPropertyValue("x-wr-calname"),
    method: calendar.getFirstPropertyValue("method"),
    events: calendar.getAllSubcomponents("vevent").map(readEvent),
  }
}

function readEvent(component: ICAL.Component) {
  const event = new ICAL.Event(component)
  const text = (name: string) => String(component.getFirstPropertyValue(name) ?? "")
  const at = (name: string) => (component.getFirstPropertyValue(name) as ICAL.Time | null)?.toJSDate()
  return {
    ...{ uid: event.uid, sequence: event.sequence, summary: event.summary, description: event.description },
    ...{ from: at("dtstart")!, to: at("dtend"), stamp: at("dtstamp"), lastModified: at("last-modified") },
    ...{ status: text("status"), transparency: text("transp"), url: text("url") },
    alarms: component.getAllSubcomponents("valarm").map((alarm) => ({
      action: alarm.getFirstPropertyValue("action"),
      minBefore: -(alarm.getFirstPropertyValue("trigger") as unknown as ICAL.Duration).toSeconds() / 60,
      words: alarm.getFirstPropertyValue("description"),
    })),
  }
}

const lisbon = sayTo({ temperatureUnit: "C", massUnit: "g", zone: "Europe/Lisbon" })

type Asked = { version?: Version; lead?: Lead; say?: typeof lisbon; renewed?: boolean; bakeId?: number }

/** The file of an own day, made at noon of 14 November 2026. */
export function fileOf(day: OwnDay, { version, lead = usualLead, say = lisbon, renewed = false, bakeId }: Asked = {}) {
  const events = eventsOf(day, { ...{ userId: 7, bakeId, version, lead, say }, publicUrl: "https://oven.example" })
  return { events, file: calendarFile(events, { madeAt: new Date("2026-11-14T12:00:00Z"), renewed }) }
}

const standing = { place: "room" as const, startC: 24, endC: 24, hours: 0, handsOn: [] }

/** Stages counted back from the table, as a plan of one's own day. */
export function planOf(stages: Stage[], onTableAt: Date): DayPlan {
  const planned: DayStage[] = countBack(stages, onTableAt).map((stage) => ({ ...stage, ...standing }))
  return { stages: planned, curve: [], loads: [], startsAt: planned[0]?.startsAt ?? onTableAt, onTableAt }
}

/** Somebody's own day of a tin loaf, with another plan or other words. */
export function ownDay(plan: DayPlan, words: { title?: string; formulaTitle?: string } = {}): OwnDay {
  const { onTableAt } = plan
  return {
    bakeDay: {
      ...{ id: 12, title: "Tin loaf week", opensOn: "2026-11-14", closesOn: "2026-11-15", onTableTime: "18:00" },
      ...{
        lookFor: "",
        targetDoughC: null,
        targetRise: null,
        allergenList: "both",
        classId: 3,
        className: "Thursday bakers",
      },
      ...{ zone: "Europe/Lisbon", revisionId: 5, formulaId: 4, revisionNumber: 1, formulaTitle: "Tin loaf" },
      ...{ content: tinLoaf, ownIngredients: [], ...words },
    },
    ...{ kept: true, kitchen: {}, wishes: {}, variant: "", content: tinLoaf, onTableAt, answer: { fits: true, plan } },
    basis: {
      ...{ places: { room: { c: 24, known: "taken" } }, pieces: 1 },
      mixed: { doughC: 24, wantedC: 24, by: "unknown", tap: { c: 15, known: "taken" } },
    },
    question: {
      ...{ stages: [], culture: "sourdough", places: { room: 24 }, mixedC: { value: 24, known: "assumed" } },
      ...{ onTableBy: onTableAt, away: [], loads: 1 },
    },
  }
}

export const stageOf = (stage: Partial<Stage>): Stage => ({
  ...{ key: "mix", kind: "mix", name: "Mix", lowMin: 30, highMin: 30, drivenByTemperature: false },
  ...{ handsOnMin: 10, cue: "", tip: "", ...stage },
})
