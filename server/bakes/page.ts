import { randomUUID } from "node:crypto"
import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { listEarlier } from "../again/queries.ts"
import { benchChanges, changeWords } from "../changes/bench.ts"
import { benchCues, typedCues } from "../cues/bench.ts"
import { pausedMin } from "../dough/schedule.ts"
import { benchEstimate } from "../estimate/bench.ts"
import { likenessOf } from "../likeness/bench.ts"
import { plannedStages } from "../plans/ahead.ts"
import { benchThreads } from "../questions/bench.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import type { Form } from "../web/forms.ts"
import { pressedAt } from "../web/sender.ts"
import { instantAt } from "../web/zones.ts"
import { mayDoWith } from "./access.ts"
import { listCorrections, listRemovedReadings } from "./corrections.ts"
import { listLoggers } from "./entries.ts"
import { foldsIn } from "./folds.ts"
import type { Reader } from "./forms.ts"
import { type LogEntry, lastOf, logOf } from "./log.ts"
import { photoPart } from "./photo-part.ts"
import { piecesOf } from "./pieces.ts"
import { ranMin, stageNow } from "./progress.ts"
import { type Bake, findBake, listMarks, listPhotos, listReadings, type Mark, type Reading } from "./queries.ts"
import {
  fingers,
  fingerWords,
  jarOf,
  kindWords,
  nameOf,
  otherTemperatures,
  placesOf,
  shownReading,
} from "./reading-words.ts"
import { typedMark, typedReading, typedResult } from "./typed.ts"

/** A form of the bench that came back with errors. `name` is one of: a reading's kind, "mark-bulk", "reading-12", "start-bulk", "end-bulk", "resume-bulk", "pieces", "photo", "scale-<photo>", "change-12", "change-added", "cues", "result", "kitchen", "stage", "state". */
export type Refused = { name: string; form: Form }

/** The bench: where one bake is logged, and read by others. */
export async function benchPage(request: FastifyRequest, refused?: Refused) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const say = sayTo(viewer)
  const bake = found(await findBake(db, idOf(request)))
  const may = await mayDoWith(db, viewer, bake.id)
  const writes = may === "write" || may === "delete"
  const marks = await listMarks(db, bake.id)
  const readings = await listReadings(db, bake.id)
  const photos = (await listPhotos(db, bake.id)).filter((photo) => writes || photo.forClass)
  const { stages } = bake.content
  const now = new Date()
  // what was corrected is between the baker and the staff
  const corrections = writes ? await listCorrections(db, bake.id) : []
  const removed = writes ? await listRemovedReadings(db, bake.id) : []
  const loggers = await listLoggers(db, bake)
  const progress = stageNow(marks, stages, bake.skipped)
  return {
    bake,
    own: bake.userId === viewer.id,
    writes,
    deletes: may === "delete",
    isAgain: (await listEarlier(db, viewer, bake)).length > 0,
    now,
    live: { page: `/bakes/${bake.id}`, version: bake.version },
    open: !bake.finishedAt && !bake.abandonedAt,
    progress,
    stages: (await plannedStages(db, bake)).map((planned) => ({
      ...planned,
      mark: marks.find(({ stageKey }) => stageKey === planned.stage.key) ?? null,
    })),
    log: logOf({ marks, readings, removed, photos, stages, corrections }),
    photos,
    photoPart: await photoPart(request, marks, stages, now),
    pieces: piecesOf(bake),
    estimate: await benchEstimate(db, { bake, marks, readings, now, say, own: bake.userId === viewer.id }),
    changes: benchChanges({ bake, marks, corrections, viewer, say, writes }),
    changeWords,
    saw: benchCues({
      ...{ bake, readings, corrections, at: (progress.running?.stage ?? progress.next)?.kind },
      form: refused?.name === "cues" ? refused.form : { typed: typedCues(bake), errors: {} },
    }),
    likeness: await likenessOf(db, viewer, bake, photos),
    threads: await benchThreads(db, viewer, { bake, photos, readings, say }),
    last: (...kinds: Reading["kind"][]) => lastOf(readings, ...kinds) ?? null,
    jar: jarOf(readings.findLast(({ kind, typed }) => kind === "rise" && typed.includes(" → ")) ?? null),
    ranMin: (mark: Mark) => ranMin(mark, now),
    pausedMin: (mark: Mark) => pausedMin(mark.pauses, mark.endedAt ?? now),
    foldsIn,
    kindWords,
    nameOf,
    otherTemperatures,
    placesOf,
    shownReading: (reading: Reading) => shownReading(reading, say),
    loggedBy: (entry: LogEntry) => loggedBy(entry, loggers),
    typedReading: (reading: Reading) => typedReading(reading, say),
    typedMark: (mark: Mark | null) => typedMark(mark, say),
    typedResult: typedResult(bake, say),
    fingers: fingers.map((finger) => [finger, fingerWords[finger]]),
    // each form has its own number, so that a form sent twice is one reading
    newEntryId: () => randomUUID(),
    refused: refused ?? null,
    formOf: (name: string, typed: Form["typed"] = {}): Form =>
      refused?.name === name ? refused.form : { typed, errors: {} },
  }
}

/** Who logged something for the baker, in words; "" for what the baker logged. */
function loggedBy(entry: LogEntry, { byUser, byForm }: Awaited<ReturnType<typeof listLoggers>>) {
  const name = entry.what === "reading" ? byForm.get(entry.reading.entryId) : byUser.get(entry.saidBy ?? 0)
  return name ? `logged by ${name}` : ""
}

/** By whose clock and in whose units the forms of a bake are read; now is when their button was pressed. */
export function readerOf(request: FastifyRequest, { opensOn, zone }: Pick<Bake, "opensOn" | "zone">): Reader {
  const viewer = viewerOf(request)
  return { ...viewer, now: pressedAt(request), opensAt: instantAt(`${opensOn}T00:00`, zone)! }
}
