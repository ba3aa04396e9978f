import type { Say } from "../accounts/say.ts"
import type { Bake, Photo, Reading } from "../bakes/queries.ts"
import { nameOf, shownReading } from "../bakes/reading-words.ts"
import { roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import type { Viewer } from "../web/access.ts"
import { listComments } from "./queries.ts"
import { type About, keyOf, type Thread, threadsOf } from "./threads.ts"

/** What there is to speak of on the bench, as far as the viewer sees it. */
type Seen = { bake: Bake; photos: Photo[]; readings: Reading[]; say: Say }

/** What is said under a bake as far as somebody may read it: under a photo that is hidden from them, nothing. */
export async function benchThreads(db: Db, viewer: Viewer, seen: Seen) {
  const { bake, photos } = seen
  const photoIds = new Set(photos.map(({ id }) => id))
  const comments = (await listComments(db, [bake.id])).filter(({ photoId }) => !photoId || photoIds.has(photoId))
  const role = await roleIn(db, viewer, bake.classId)
  const list = threadsOf(comments, { viewer, stages: bake.content.stages, teaches: role === "instructor" })
  return {
    list,
    about: (about: About) => list.find(({ key }) => key === keyOf(about)) ?? nothingSaid(about),
    titleOf: (thread: Thread) => titleOf(thread, seen),
    /** Where the viewer asked, and others have spoken since. */
    answered: list.filter(({ news }) => news),
    ofStaff: role === "instructor" || role === "assistant",
  }
}

const nothingSaid = (about: About): Thread => ({ ...about, key: keyOf(about), said: [], asked: null, news: null })

/** "Photo of Bulk, 14:32", "Rise +40 %, 14:10" */
function titleOf({ photoId, readingId }: Thread, { bake, photos, readings, say }: Seen) {
  const photo = photos.find(({ id }) => id === photoId)
  const stage = bake.content.stages.find(({ key }) => key === photo?.stageKey)?.name
  if (photo) return `Photo${stage ? ` of ${stage}` : ""}, ${say.dayAndTime(photo.takenAt)}`
  const reading = readings.find(({ id }) => id === readingId)
  if (!reading) return readingId ? "A reading that was taken back" : "The bake as a whole"
  return `${nameOf(reading)} ${shownReading(reading, say).value}, ${say.dayAndTime(reading.takenAt)}`
}
