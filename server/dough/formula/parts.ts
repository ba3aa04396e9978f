import { readQuantity } from "../quantity/old.ts"
import type { WrittenPart } from "./formula.ts"

/**
 * Where one part goes. `reach` is the share of it that ends up in a final dough, what stays in jars on the way taken off;
 * undefined when that cannot be followed. `circular` parts are, by way of others, in themselves.
 */
export type Place = {
  intoIndex?: number
  isFinal: boolean
  stays?: number
  reach?: number
  circular: boolean
  childIndexes: number[]
  problem?: string
}

/** Follows every part to the final dough. Never throws: what is wrong is in `problem`, in words. */
export function placeParts(parts: WrittenPart[]): Place[] {
  const places = parts.map((part) => place(part, parts))
  for (const [index, at] of places.entries()) {
    if (at.intoIndex !== undefined) places[at.intoIndex]?.childIndexes.push(index)
    const above = chain(index, places)
    at.circular = above.at(-1) === index && above.length > 1
    if (at.circular) at.problem ??= `${nameOf(parts[index])} goes, by way of other parts, into itself.`
    at.reach = reachAlong(above, places)
  }
  return places
}

export const nameOf = (part: WrittenPart | undefined) => part?.name.trim() || "A part without a name"

function place(part: WrittenPart, parts: WrittenPart[]): Place {
  const isFinal = part.goesInto === ""
  const found = isFinal ? -1 : parts.findIndex(({ key }) => key === part.goesInto)
  const stays = readStays(part.staysPercent)
  const problem =
    !isFinal && found < 0
      ? `${nameOf(part)} goes into a part that does not exist.`
      : stays === undefined
        ? `What stays in the jar of ${nameOf(part)} must be one percentage from 0 to below 100.`
        : undefined
  const intoIndex = found < 0 ? undefined : found
  return { isFinal, intoIndex, stays, problem, circular: false, childIndexes: [] }
}

function readStays(text: string) {
  const quantity = readQuantity(text.includes("%") ? text : text.trim() && `${text} %`)
  if (quantity.kind === "blank") return 0
  if (quantity.kind !== "percent") return undefined
  const { low, high } = quantity.share
  return low === high && low < 1 ? low : undefined
}

/** A part, the part it goes into, and so on, ending at a final dough, a dead end or the first part met twice. */
function chain(index: number, places: Place[]) {
  const seen = [index]
  for (let next = places[index]?.intoIndex; next !== undefined; next = places[next]?.intoIndex) {
    const again = seen.includes(next)
    seen.push(next)
    if (again) break
  }
  return seen
}

function reachAlong(above: number[], places: Place[]) {
  if (!places[above.at(-1)!]?.isFinal) return undefined
  return above.reduce<number | undefined>((reach, index) => {
    const stays = places[index]?.stays
    return reach === undefined || stays === undefined ? undefined : reach * (1 - stays)
  }, 1)
}
