import type { Viewer } from "../web/access.ts"
import { type Part, partsOf } from "./mentions.ts"
import type { Comment } from "./queries.ts"

/** What somebody said about; neither: the bake itself. */
export type About = { photoId?: string | null; readingId?: number | null }
export type Said = {
  id: number
  at: Date
  name: string
  ofStaff: boolean
  own: boolean
  asks: boolean
  settles: boolean
  waits: boolean
  takenBack: boolean
  parts: Part[]
  stageKey: string | null
  mayTakeBack: boolean
}
/** `asked`: the question of the viewer's own that waits. `news`: the newest words of others since the viewer asked. */
export type Thread = About & { key: string; said: Said[]; asked: Said | null; news: Said | null }
type Stage = { key: string; name: string }
type Reading = { viewer: Pick<Viewer, "id">; stages: Stage[]; teaches: boolean }

/** What is said under each thing, in the order in which somebody first said something there. */
export function threadsOf(comments: Comment[], how: Reading): Thread[] {
  const keys = new Set(comments.map(keyOf))
  return [...keys].map((key) =>
    threadOf(
      key,
      comments.filter((comment) => keyOf(comment) === key),
      how,
    ),
  )
}

/** What stands in ids and names for the thing that is spoken of. */
export const keyOf = ({ photoId, readingId }: About) =>
  photoId ? `photo-${photoId}` : readingId ? `reading-${readingId}` : "bake"

function threadOf(key: string, comments: Comment[], { viewer, stages, teaches }: Reading): Thread {
  const [{ photoId, readingId } = {} as About] = comments
  const said = comments.map((comment): Said => {
    const { id, madeAt: at, name, ofStaff, asks, waits, words, stageKey } = comment
    const takenBack = comment.removedAt !== null
    const own = comment.userId === viewer.id
    return {
      ...{ id, at, name, ofStaff, own, asks, waits, takenBack },
      // a photo or a reading says by itself of which stage it is
      stageKey: key === "bake" ? stageKey : null,
      settles: !asks && !takenBack && words === "",
      parts: partsOf(words, stages),
      mayTakeBack: !takenBack && (own || teaches),
    }
  })
  const asked = said.findLast((one) => one.own && one.waits) ?? null
  return { photoId, readingId, key, said, asked, news: newsIn(said) }
}

/** Only who has asked in a thread, and not spoken there since, is told of news. */
function newsIn(said: Said[]) {
  if (!said.some(({ own, asks, takenBack }) => own && asks && !takenBack)) return null
  const lastOwn = said.findLastIndex(({ own, takenBack }) => own && !takenBack)
  return said.slice(lastOwn + 1).findLast(({ takenBack }) => !takenBack) ?? null
}
