import { fingerWords } from "../bakes/reading-words.ts"
import { countBack, type PlannedStage, type Stage } from "../dough/schedule.ts"
import { cToF, fToC } from "../dough/units.ts"
import type { marks, readings } from "../schema.ts"
import type { Chance } from "./chance.ts"
import { doughIn } from "./kitchen-dough.ts"
import type { Diligence, Story } from "./stories.ts"

type LoggedMark = Omit<typeof marks.$inferInsert, "bakeId">
type LoggedReading = Omit<typeof readings.$inferInsert, "id" | "bakeId" | "entryId" | "madeAt">
type Moment = [stage: string, share: number, kind: "dough" | "room" | "rise" | "finger" | "ph"]

/** What people of each kind write down, and when: the share of the stage that has passed. */
const habits: Record<Diligence, Moment[]> = {
  careful: [
    ...(["mix", "rest", "bulk"] as const).map((stage): Moment => [stage, stage === "rest" ? 0.5 : 1, "dough"]),
    ...[0.05, 0.28, 0.52, 0.76].map((share): Moment => ["bulk", share, "dough"]),
    ...[0.35, 0.65, 1].map((share): Moment => ["bulk", share, "rise"]),
    ...[0.05, 0.6].map((share): Moment => ["bulk", share, "room"]),
    ...[0.1, 0.95].map((share): Moment => ["proof", share, "dough"]),
    ["bulk", 1, "ph"],
    ["proof", 0.6, "finger"],
    ["proof", 1, "finger"],
  ],
  ordinary: [
    ...[0.05, 0.6, 1].map((share): Moment => ["bulk", share, "dough"]),
    ["bulk", 0.05, "room"],
    ["bulk", 1, "rise"],
    ["proof", 1, "dough"],
    ["proof", 1, "finger"],
  ],
  sparse: [
    ["bulk", 0.1, "room"],
    ["proof", 1, "finger"],
  ],
}
const sparseMarks = ["bulk", "proof", "bake"]

export type Log = ReturnType<typeof logOf>

/**
 * The log a story leaves: marks and readings, up to where it was given up or to `now`. The same for the same dice.
 * `riseAt` is the share gained since the bulk began, whether or not somebody measured it.
 */
export function logOf(
  story: Story,
  stages: Stage[],
  at: { onTableAt: Date; now: Date; unit: "C" | "F" },
  dice: Chance,
) {
  const done = actualStages(story, countBack(stages, at.onTableAt), dice)
  const bulk = find(done, "bulk")
  const abandonedAt = story.givenUp && momentIn(done, story.givenUp.stage, story.givenUp.afterMin)
  const until = abandonedAt ?? at.now
  const end = done.at(-1)!.endedAt
  const { writes } = story
  const marked =
    writes === "sparse" ? done.filter(({ stageKey }) => sparseMarks.includes(stageKey)) : writes ? done : []
  const written = writes ? [...measured(story, writes, done, at.unit, dice), ...notesOf(story, done)] : []
  return {
    marks: marked
      .filter(({ startedAt }) => startedAt <= until)
      .map((mark): LoggedMark => ({ ...mark, endedAt: mark.endedAt <= until ? mark.endedAt : null })),
    readings: written.filter(({ takenAt }) => takenAt <= until).sort((a, b) => +a.takenAt - +b.takenAt),
    abandonedAt,
    finishedAt: writes && !abandonedAt && end <= at.now ? end : undefined,
    endOf: (stageKey: string) => find(done, stageKey).endedAt,
    momentIn: (stageKey: string, afterMin: number) => momentIn(done, stageKey, afterMin),
    riseAt: (at: Date) => doughOf(story, done).rise(bulk.startedAt, at),
  }
}

type Done = { stageKey: string; startedAt: Date; endedAt: Date }

/** One stage after the other, each begun a few minutes after the last one ended, as hands are washed and doors answered. */
function actualStages({ minutes, lateMin = 0 }: Story, plan: PlannedStage[], dice: Chance): Done[] {
  let free = addMinutes(plan[0]!.startsAt, lateMin + dice.between(0, 6))
  return plan.map(({ stage, startsAt, endsAt }) => {
    const lasts = minutes?.[stage.key] ?? minutesBetween(startsAt, endsAt) * dice.between(0.97, 1.03)
    const startedAt = addMinutes(free, dice.between(0, 3))
    const endedAt = addMinutes(startedAt, lasts)
    free = endedAt
    return { stageKey: stage.key, startedAt, endedAt }
  })
}

function measured(story: Story, writes: Diligence, done: Done[], unit: "C" | "F", dice: Chance): LoggedReading[] {
  const dough = doughOf(story, done)
  return habits[writes].flatMap(([stageKey, share, kind]): LoggedReading[] => {
    const stage = find(done, stageKey)
    const takenAt = addMinutes(stage.startedAt, share * minutesBetween(stage.startedAt, stage.endedAt))
    const reading = { kind, stageKey, takenAt, value: null, finger: null }
    switch (kind) {
      case "dough":
        return [{ ...reading, ...thermometer(dough.doughC(takenAt) + 0.15 * dice.normal(), unit) }]
      case "room":
        return [{ ...reading, ...thermometer(story.roomC + 0.3 * dice.normal(), unit) }]
      case "rise":
        return [{ ...reading, ...ruler(dough.rise(stage.startedAt, takenAt)) }]
      case "ph":
        return story.ph ? [{ ...reading, value: Number(story.ph), typed: story.ph }] : []
      default: {
        // halfway through the proof a dent still springs back, except where the dough is far ahead
        const finger = share < 1 && story.finger === "slowly-partly" ? "straight-back" : story.finger
        return finger ? [{ ...reading, finger, typed: fingerWords[finger] }] : []
      }
    }
  })
}

const notesOf = ({ notes = [] }: Story, done: Done[]) =>
  notes.map(({ stage, afterMin, words }): LoggedReading => {
    const takenAt = momentIn(done, stage, afterMin)
    return { kind: "note", stageKey: stage, takenAt, value: null, finger: null, typed: words }
  })

/** The dough of this story by the clock: mixed when its mixing ended. */
function doughOf(story: Story, done: Done[]) {
  const mixedAt = find(done, "mix").endedAt
  const hours = (at: Date) => minutesBetween(mixedAt, at) / 60
  const { doughC, rise } = doughIn(story)
  return { doughC: (at: Date) => doughC(hours(at)), rise: (from: Date, to: Date) => rise(hours(from), hours(to)) }
}

/** As read off: tenths of a degree Celsius, whole degrees Fahrenheit. */
function thermometer(c: number, unit: "C" | "F") {
  if (unit === "F") return { value: fToC(Math.round(cToF(c))), typed: `${Math.round(cToF(c))} °F` }
  return { value: Number(c.toFixed(1)), typed: `${c.toFixed(1)} °C` }
}

/** A jar filled 50 mm high, read to the millimetre. */
function ruler(share: number) {
  const nowMm = Math.round(startMm * (1 + share))
  return { value: nowMm / startMm - 1, typed: `${startMm} → ${nowMm} mm` }
}
const startMm = 50

const find = (done: Done[], key: string) => done.find(({ stageKey }) => stageKey === key)!
const momentIn = (done: Done[], key: string, afterMin: number) => addMinutes(find(done, key).startedAt, afterMin)

const minuteMs = 60_000
/** To the whole minute, as people tap and type it. */
const addMinutes = (at: Date, minutes: number) => new Date(Math.round(+at / minuteMs + minutes) * minuteMs)
const minutesBetween = (from: Date, to: Date) => (+to - +from) / minuteMs
