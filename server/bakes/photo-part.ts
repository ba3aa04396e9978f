import type { FastifyRequest } from "fastify"
import type { Stage } from "../dough/schedule.ts"
import { trustsCamera } from "../photos/queries.ts"
import { viewerOf } from "../web/access.ts"
import { asItRan } from "./photo-form.ts"
import { subjectAt, subjectWords } from "./photo-place.ts"
import { stageKeyAt } from "./progress.ts"
import type { Mark, Photo } from "./queries.ts"

/** What the photos of a bench need beside themselves: their words, and how the form for more of them is preset. */
export async function photoPart(request: FastifyRequest, marks: Mark[], stages: Stage[], now: Date) {
  const runs = stageKeyAt(marks, now) ?? null
  const { "camera-unused": unused } = request.query as { "camera-unused"?: unknown }
  return {
    kinds: Object.entries(subjectWords),
    kindOf: ({ subject }: Photo) => subjectWords[subject],
    knownBy: ({ takenBy }: Photo) => waysOfKnowing[takenBy],
    nowRuns: stages.find(({ key }) => key === runs)?.name ?? "",
    nowShows: subjectWords[subjectAt(runs, now, marks, stages)],
    preset: {
      ...{ subject: "", stageKey: asItRan, forClass: "on" },
      cameraTime: (await trustsCamera(request.server.db, viewerOf(request).id)) ? "on" : "",
    },
    unused: Math.max(0, Number(unused) || 0),
  }
}

const waysOfKnowing: Record<Photo["takenBy"], string> = {
  sending: "",
  person: ", as told",
  camera: ", by its camera",
}
