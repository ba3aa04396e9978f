import { across, type Place, type Places } from "./places.ts"
import type { Plot } from "./plot.ts"

/** Words at a place: x and y in per cent, `anchor` and `dy` (px) say on which side of it. */
export type Label = { x: number; y: number; words: string; anchor: "start" | "middle" | "end"; dx: number; dy: number }

// A phone's drawing, px: what does not collide there does not collide anywhere. Letters of 12 px are about 6.6 wide.
const narrow = { width: 280, height: 200 }
export const letterPx = 6.6
const linePx = 14

/** The labels of points, each on the first side where it meets no other label and no end of the drawing; left out where there is none. */
export function labelsOf(plot: Plot, places: Places): Label[] {
  const labelled = plot.series
    .filter(({ kind }) => kind === "line" || kind === "dots")
    .flatMap(({ points, role }) => points.filter(({ label }) => label).map((point) => ({ point, role })))
    .filter(({ point }) => places.inside(point))
    .toSorted((a, b) => Number(b.role === "outlier") - Number(a.role === "outlier"))
  const marks = plot.series.filter(({ kind, marked }) => kind === "dots" || marked).flatMap(({ points }) => points)
  const taken = marks.filter(places.inside).map(({ x, y }) => markAt(places.at(x, y)))
  return labelled.flatMap(({ point }): Label[] => {
    const place = places.at(point.x, point.y)
    const found = sides
      .map((side) => ({ side, room: roomOf(place, side, point.label!) }))
      .find(({ room }) => isFree(room, taken))
    if (!found) return []
    taken.push(found.room)
    return [{ x: place[0] / 10, y: place[1] / 10, words: point.label!, ...found.side }]
  })
}

type Side = Pick<Label, "anchor" | "dx" | "dy">
const sides: Side[] = [
  { anchor: "start", dx: 8, dy: 4 },
  { anchor: "end", dx: -8, dy: 4 },
  { anchor: "middle", dx: 0, dy: -9 },
  { anchor: "middle", dx: 0, dy: 19 },
]
type Rectangle = { left: number; right: number; top: number; bottom: number }

function roomOf([x, y]: Place, { anchor, dx, dy }: Side, words: string): Rectangle {
  const width = words.length * letterPx
  const at = (x / across) * narrow.width + dx
  const left = anchor === "start" ? at : anchor === "end" ? at - width : at - width / 2
  const bottom = (y / across) * narrow.height + dy + 3
  return { left, right: left + width, top: bottom - linePx, bottom }
}

/** A mark itself; the sides of a label keep off their own. */
function markAt([x, y]: Place): Rectangle {
  const [left, top] = [(x / across) * narrow.width, (y / across) * narrow.height]
  return { left: left - 2, right: left + 2, top: top - 2, bottom: top + 2 }
}

const isFree = (room: Rectangle, taken: Rectangle[]) =>
  room.left >= 0 &&
  room.right <= narrow.width + 8 &&
  room.top >= -linePx &&
  taken.every(
    (other) => room.right < other.left || room.left > other.right || room.bottom < other.top || room.top > other.bottom,
  )
