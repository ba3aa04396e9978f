import { sayTo } from "../accounts/say.ts"
import { crumbCaption } from "../crumbs/captions.ts"
import type { Viewer } from "../web/access.ts"
import { typedIn } from "../web/forms.ts"
import { layBake } from "./laid.ts"
import type { TableBake } from "./queries.ts"
import { sorted } from "./sorting.ts"
import { wordsFor } from "./words.ts"

/** The crumbs and crusts of these bakes, those whose scale is known at one scale, the others apart. */
export function wallPage(bakes: TableBake[], query: unknown, viewer: Viewer, now: Date) {
  const say = sayTo(viewer)
  const typed = typedIn(query)
  const asked = {
    sort: typed.sort === "verdict" ? ("verdict" as const) : ("name" as const),
    way: typed.way === "down" ? ("down" as const) : ("up" as const),
    large: typed.for === "projector",
  }
  const laid = bakes.map((bake) => layBake(bake, now, say))
  const hung = sorted(laid, asked).flatMap((item) => {
    const words = wordsFor(item.row, item.name, say, item.bake.zone)
    return item.bake.photos.map((photo) => {
      const figures = item.bake.crumbs.find(({ photoId }) => photoId === photo.id)
      return { ...item, words, photo, measured: figures ? crumbCaption(figures) : "" }
    })
  })
  const walls = (["crumb", "crust"] as const).map((subject) => {
    const theirs = hung.filter(({ photo }) => photo.subject === subject)
    return {
      subject,
      toScale: theirs.filter(({ photo }) => photo.acrossMm !== null),
      unknown: theirs.filter(({ photo }) => photo.acrossMm === null),
    }
  })
  return {
    asked,
    walls: walls.filter(({ toScale, unknown }) => toScale.length + unknown.length > 0),
    nearness: nearnessOf(hung.map(({ photo }) => photo)),
    to: (change: Partial<typeof asked>) => addressOf({ ...asked, ...change }),
    em,
  }
}

/** How near one can stand to photos so that the widest of them still fits on a phone. */
export function nearnessOf(photos: { acrossMm: number | null }[]): "near" | "middle" | "far" {
  const widestMm = photos.reduce((widest, { acrossMm }) => Math.max(widest, acrossMm ?? 0), 0)
  return widestMm <= 160 ? "near" : widestMm <= 260 ? "middle" : "far"
}

/** Lengths in the unit of the wall's stylesheet, where one em is ten millimetres. */
export const em = (mm: number) => `${Number((mm / 10).toFixed(2))}em`

function addressOf({ sort, way, large }: { sort: string; way: string; large: boolean }) {
  return `?${new URLSearchParams({ sort, way, ...(large ? { for: "projector" } : {}) })}`
}
