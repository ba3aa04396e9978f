import type { StreamEvent } from "../web/event-stream.ts"
import type { Follower, Following, Hub, Topic } from "../web/notices.ts"
import { type Fragment, patch } from "./fragments.ts"

/** One page that is kept up to date while somebody has it open. */
export type LivePage = {
  topic: Topic
  /** After how many heartbeats without a change it is looked at all the same: time passes for its words, too. */
  beatsPerLook: number
  /** The ids of the lists whose rows come and go. */
  lists: string[]
  /** What the page is drawn from: another text as soon as anything changed. */
  version: () => Promise<string>
  /** Why this reader is sent nothing more, in words for them; "" while they may see the page. */
  refusal: (following: Following) => Promise<string>
  /** What this reader sees now. */
  look: (following: Following) => Promise<Fragment[]>
}
type Opened = { hub: Hub; follower: Follower; since: string; signal: AbortSignal }

/** How soon a browser connects again. Our own choice. */
const retryMs = 2000

/** A named event with nothing in it: the page, too, learns that events get through. */
const beat: StreamEvent = { comment: "still here", event: "beat", data: "" }

/**
 * The events of one open page that was drawn from `since`: at once when that is out of date, then whenever something
 * changed. Ends when the reader may no longer see it, and says why.
 */
export async function* eventsOf(page: LivePage, { hub, follower, since, signal }: Opened): AsyncGenerator<StreamEvent> {
  // from here on nothing is missed: what changes while we look is told us afterwards
  const following = hub.follow(page.topic, follower, signal)
  try {
    yield { ...beat, retryMs }
    const upToDate = since === (await following.share("version", page.version))
    // a page without lists is sent as a whole at its first change, which is cheaper than drawing every page twice
    let shown = upToDate && page.lists.length > 0 ? await page.look(following) : undefined
    let happening = upToDate && hub.listens() ? await following.next() : "changed"

    for (let beats = 0; happening !== "over"; happening = await following.next()) {
      const refusal = await page.refusal(following)
      if (refusal) return yield { event: "over", data: refusal }
      if (happening === "beat" && ++beats % page.beatsPerLook > 0) yield beat
      else {
        const id = await following.share("version", page.version)
        const fragments = await page.look(following)
        const data = patch(shown, fragments, page.lists)
        yield data ? { id, data } : { ...beat, id }
        shown = fragments
      }
      // where nothing is ever heard, this look is all there is, and the page comes back for the next
      if (!hub.listens()) return
    }
  } finally {
    following.leave()
  }
}
