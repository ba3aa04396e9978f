import { z } from "zod"
import { readLength } from "../dough/readings.ts"
import type { PointInPhoto, Ruler } from "../schema.ts"
import { maybeReadBy } from "../web/forms.ts"
import { crosses, sizeOf } from "./corners.ts"
import { knownLengths } from "./known-lengths.ts"

export const mostCorners = 12
// Our own judgement: less than a fiftieth of a picture holds too few cells to speak of.
const leastShare = 0.02

/** A place in the picture, in per cent from its left or upper edge. */
const percent = maybeReadBy((text: string): { value: number } | { error: string } => {
  const match = /^(\d{1,3}(?:[.,]\d{1,6})?)\s*%?$/.exec(text.trim())
  if (!match) return { error: "Give a per cent, such as 20." }
  const value = Number(match[1]!.replace(",", "."))
  return value <= 100 ? { value: value / 100 } : { error: "It lies within the picture, from 0 to 100 %." }
})

type Context = z.core.$RefinementCtx
const refuse = (context: Context, path: string, message: string) => {
  context.addIssue({ code: "custom", path: [path], message })
  return z.NEVER
}

/** Of two fields that belong together both or neither. */
function pointOf(context: Context, [nameX, x]: Told, [nameY, y]: Told): PointInPhoto | undefined {
  if (x === null && y === null) return undefined
  if (x === null) return refuse(context, nameX, "Say how far from the left.")
  if (y === null) return refuse(context, nameY, "Say how far from the top.")
  return { x, y }
}
type Told = [string, number | null]

const cornerNames = Array.from({ length: mostCorners }, (_, i) => [`x${i + 1}`, `y${i + 1}`] as const)

/** Three to twelve corners; a pair left blank is no corner, and none at all is the area as suggested. */
export const areaForm = z
  .object({
    suggested: z.string().default(""),
    ...(Object.fromEntries(cornerNames.flat().map((name) => [name, percent])) as Record<string, typeof percent>),
  })
  .transform((typed, context): { crumbArea: PointInPhoto[] | null } => {
    if (typed.suggested) return { crumbArea: null }
    const told = typed as unknown as Record<string, number | null>
    const corners = cornerNames.flatMap(([x, y]) => pointOf(context, [x, told[x]!], [y, told[y]!]) ?? [])
    if (context.issues.length > 0) return z.NEVER
    if (corners.length < 3) return refuse(context, "x1", "An area has three corners at least.")
    if (crosses(corners)) return refuse(context, "x1", "The edges of this area cross; go around it corner by corner.")
    if (sizeOf(corners) < leastShare) return refuse(context, "x1", "That is less than 2 % of the picture, too little.")
    return { crumbArea: corners }
  })

// As for a width that is told at once (bakes/photo-scale.ts): from a few pores to a table of loaves. Our own limits.
const [leastMm, mostMm] = [10, 2000]
const leastApart = 0.02

/** Two points of a picture of this size and how far they are apart; all blank takes the scale back. */
export const rulerForm = ({ width, height }: { width: number; height: number }) =>
  z
    .object({
      ...{ fromX: percent, fromY: percent, toX: percent, toY: percent },
      known: z.enum(["", ...knownLengths.map(({ key }) => key)], "Choose one of these.").default(""),
      length: maybeReadBy(readLength),
      none: z.string().default(""),
    })
    .transform((told, context): { ruler: Ruler | null; acrossMm: number | null } => {
      if (told.none) return { ruler: null, acrossMm: null }
      const from = pointOf(context, ["fromX", told.fromX], ["fromY", told.fromY])
      const to = pointOf(context, ["toX", told.toX], ["toY", told.toY])
      if (context.issues.length > 0) return z.NEVER
      if (!from) return refuse(context, "fromX", "Say where it begins in the picture.")
      if (!to) return refuse(context, "toX", "Say where it ends in the picture.")
      const known = knownLengths.find(({ key }) => key === told.known)
      if (known && told.length !== null)
        return refuse(context, "length", "Choose one above or type a length, not both.")
      const mm = known?.mm ?? told.length
      if (mm === null) return refuse(context, "length", "Say how far the two points are apart.")
      const apart = Math.hypot(to.x - from.x, ((to.y - from.y) * height) / width)
      if (apart < leastApart) return refuse(context, "toX", "The two points are too near each other to tell a scale.")
      const acrossMm = mm / apart
      if (acrossMm < leastMm || acrossMm > mostMm)
        return refuse(
          context,
          "length",
          `The whole picture would be ${Math.round(acrossMm)} mm wide; check the points and the length.`,
        )
      return { ruler: { from, to, mm, typed: known?.key ?? `${mm} mm` }, acrossMm }
    })

const edge = (message: string) =>
  percent.transform((value, context) => {
    if (value !== null) return value
    context.addIssue({ code: "custom", message })
    return z.NEVER
  })

/** A frame by two opposite corners, and how many cells somebody sees in it. */
export const countForm = z
  .object({
    ...{ left: edge("Say where the frame begins."), top: edge("Say where the frame begins.") },
    ...{ right: edge("Say where the frame ends."), bottom: edge("Say where the frame ends.") },
    count: z
      .string({ error: "Say how many cells you count." })
      .trim()
      .regex(/^\d{1,4}$/, "Give the number of cells, a whole number.")
      .transform(Number),
  })
  .transform(({ left, top, right, bottom, count }, context) => {
    const frame = {
      ...{ x: Math.min(left, right), y: Math.min(top, bottom) },
      ...{ width: Math.abs(right - left), height: Math.abs(bottom - top) },
    }
    if (frame.width < leastApart || frame.height < leastApart)
      return refuse(context, "right", "That frame is too small to count in.")
    return { frame, count }
  })
