import type { Stage, StageKind } from "../dough/schedule.ts"
import type { CaptureTime } from "../photos/capture-time.ts"
import type { photoSubjects } from "../schema.ts"
import { instantAt } from "../web/zones.ts"
import type { Reader } from "./forms.ts"
import { asItRan, type PhotoValues } from "./photo-form.ts"
import { stageKeyAt } from "./progress.ts"
import type { Mark } from "./queries.ts"
import { longestBeforeMs, skewMs } from "./when.ts"

export type Subject = (typeof photoSubjects)[number]

/** When a photo was taken and how that is known; `unused` where the camera's time was wanted and cannot be told or be right. */
export function takenOf({ takenAt, cameraTime }: PhotoValues, camera: CaptureTime | undefined, reader: Reader) {
  if (takenAt) return { takenAt: takenAt.at, takenBy: "person" as const, unused: false }
  const at = cameraTime && camera ? believable(camera, reader) : undefined
  if (at) return { takenAt: at, takenBy: "camera" as const, unused: false }
  return { takenAt: reader.now, takenBy: "sending" as const, unused: cameraTime }
}

/** A camera that was never set says 1970, one that was set wrong tomorrow. */
function believable({ wallTime, offset }: CaptureTime, { zone, now, opensAt }: Reader): Date | undefined {
  const at = offset ? new Date(`${wallTime}${offset}`) : instantAt(wallTime, zone)
  if (!at || !(+at >= +opensAt - longestBeforeMs && +at <= +now + skewMs)) return undefined
  return at > now ? now : at
}

/** The stage a photo belongs to and what it shows, as told, else as the bake stood when it was taken. */
export function placeOf({ stageKey, subject }: PhotoValues, at: Date, marks: Mark[], stages: Stage[]) {
  const ran = stageKeyAt(marks, at) ?? null
  const told = stageKey === asItRan ? ran : stageKey || null
  return { stageKey: told, subject: subject || subjectAt(told, at, marks, stages) }
}

/** What is to be seen in a stage; between stages in the last that began, and before all of them in the first. */
export function subjectAt(stageKey: string | null, at: Date, marks: Mark[], stages: Stage[]): Subject {
  const begun = marks.filter(({ startedAt }) => startedAt <= at).sort((a, b) => +a.startedAt - +b.startedAt)
  const key = stageKey ?? begun.at(-1)?.stageKey
  const stage = stages.find((one) => one.key === key) ?? stages[0]
  if (!stage) return "other"
  return levain.test(stage.name) && stage.kind in beforeTheDough ? "starter" : shows[stage.kind]
}

// A formula says of a stage what kind it is, not which part it belongs to: its name does.
const levain = /\b(levains?|leaven|starter|poolish|biga|sponge|pre-?ferment|mother|build|feed)\b/i
const beforeTheDough = { mix: true, rest: true }

const shows: Record<StageKind, Subject> = {
  ...{ mix: "dough", rest: "dough", bulk: "dough", fold: "dough" },
  ...{ divide: "shaped", shape: "shaped", proof: "shaped", retard: "shaped" },
  ...{ bake: "crust", cool: "crumb" },
}

export const subjectWords: Record<Subject, string> = {
  ...{ starter: "starter", dough: "dough", shaped: "shaped dough", crust: "crust", crumb: "crumb" },
  other: "something else",
}
