import type { Db } from "../db.ts"
import type { Viewer } from "../web/access.ts"
import { namedAs } from "./class-view.ts"
import type { EditionContent, KeptBake } from "./content.ts"
import { readIn } from "./in-units.ts"
import { htmlOf } from "./markdown.ts"
import { listStillShared } from "./queries.ts"
import { plotsWithout } from "./withdrawn.ts"

type StillShared = Awaited<ReturnType<typeof listStillShared>>[number]
export type ShownBake = ReturnType<typeof showBake>

/**
 * An edition as the class sees it now, the same for everybody: what it kept, less every bake that is not shared any more
 * and every photo that was withdrawn. `gone` names those bakes, for the staff alone.
 */
export async function showEdition(db: Db, content: EditionContent, viewer: Viewer) {
  const { kept } = content
  const shared = await listStillShared(db, [
    ...new Set([...kept.bakes.map(({ id }) => id), ...kept.names.map(({ bakeId }) => bakeId)]),
  ])
  const sharedIds = new Set(shared.map(({ id }) => id))
  const bakeOf = (id: number | null) => {
    const bake = kept.bakes.find((one) => one.id === id)
    const now = shared.find((one) => one.id === id)
    return bake && now ? showBake(bake, now, viewer) : null
  }
  const left = new Set(shared.filter(({ name }) => name === null).map(({ id }) => id))
  const hiddenNames = kept.names
    .filter(({ bakeId }) => !sharedIds.has(bakeId) || left.has(bakeId))
    .map(({ name }) => name)
  return {
    title: content.title,
    words: content.words,
    html: content.words.trim() ? htmlOf(content.words) : "",
    nextTime: content.nextTime,
    showVerdicts: content.showVerdicts,
    showCauses: content.showCauses,
    bakes: content.bakes.map(({ id }) => bakeOf(id)),
    pairs: content.pairs.map(({ left, right, why }) => ({ left: bakeOf(left), right: bakeOf(right), why })),
    plots: plotsWithout(kept.plots, [...new Set(hiddenNames)]),
    gone: kept.bakes.filter(({ id }) => !sharedIds.has(id)).map((bake) => namedAs(bake)),
  }
}
export type Shown = Omit<Awaited<ReturnType<typeof showEdition>>, "gone">

function showBake({ causes, ...kept }: KeptBake, now: StillShared, viewer: Viewer) {
  const photos = kept.photos.flatMap((id) => now.photos.find((photo) => photo.id === id) ?? [])
  const name = namedAs(now.name === null ? { ...kept, name: "Somebody who has left the class" } : kept)
  return { ...kept, name, photos, causes: readIn(causes, viewer), own: now.userId === viewer.id }
}
