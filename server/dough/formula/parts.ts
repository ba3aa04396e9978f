import type { Share } from "../amounts.ts"
import { readQuantity } from "../quantity/read.ts"
import type { WrittenPart } from "./written.ts"

/** What is left in a part's jar: a share of what is made, or a mass of it. */
export type Stays = { share: Share } | { g: number }

/**
 * Where one part goes. `chain` is the part, the one it goes into and so on to a final dough; undefined when it leads
 * nowhere. `circular` parts are, by way of others, in themselves.
 */
export type Place = {
  intoIndex?: number
  isFinal: boolean
  stays?: Stays
  chain?: number[]
  circular: boolean
  childIndexes: number[]
  problem?: string
}

/** Follows every part to the final dough. Never throws: what is wrong is in `problem`, in words. */
export function placeParts(parts: WrittenPart[]): Place[] {
  const places = parts.map((part) => place(part, parts))
  for (const [index, at] of places.entries()) {
    if (at.intoIndex !== undefined) places[at.intoIndex]?.childIndexes.push(index)
    const above = walkUp(index, places)
    at.circular = above.at(-1) === index && above.length > 1
    if (at.circular) at.problem ??= `${nameOf(parts[index])} goes, by way of other parts, into itself.`
    if (places[above.at(-1)!]?.isFinal) at.chain = above
  }
  return places
}

/** What a part is called in a sentence. */
export const nameOf = (part: WrittenPart | undefined) => part?.name.trim() || "A part without a name"

/** Every part after those that go into it; parts in a circle are left out. */
export function childrenFirst(places: Place[]): number[] {
  const order: number[] = []
  const visit = (index: number) => {
    const at = places[index]!
    if (at.circular || order.includes(index)) return
    at.childIndexes.forEach(visit)
    order.push(index)
  }
  for (const index of places.keys()) visit(index)
  return order
}

function place(part: WrittenPart, parts: WrittenPart[]): Place {
  const isFinal = part.goesInto === ""
  const found = isFinal ? -1 : parts.findIndex(({ key }) => key === part.goesInto)
  const stays = readStays(part.staysPercent)
  const problem =
    !isFinal && found < 0
      ? `${nameOf(part)} goes into a part that does not exist.`
      : stays === undefined
        ? `What stays in the jar of ${nameOf(part)} must be one percentage from 0 to below 100, or one mass.`
        : undefined
  const intoIndex = found < 0 ? undefined : found
  return { isFinal, intoIndex, stays, problem, circular: false, childIndexes: [] }
}

/** What stays in a jar as typed, "" nothing; undefined when it cannot be read. A number without a unit is a percentage here, not grams. */
export function readStays(text: string): Stays | undefined {
  if (text.trim() === "") return { share: 0 }
  const quantity = readQuantity(/^\s*[\d.,]+\s*$/.test(text) ? `${text} %` : text)
  if (quantity.kind === "mass") return single(quantity.g, (g) => ({ g }))
  if (quantity.kind === "percent") return single(quantity.share, (share) => (share < 1 ? { share } : undefined))
}

function single<Kind>({ low, high }: { low: number; high: number }, of: (value: number) => Kind) {
  return low === high ? of(low) : undefined
}

/** A part, the part it goes into, and so on, ending at a final dough, a dead end or the first part met twice. */
function walkUp(index: number, places: Place[]) {
  const seen = [index]
  for (let next = places[index]?.intoIndex; next !== undefined; next = places[next]?.intoIndex) {
    const again = seen.includes(next)
    seen.push(next)
    if (again) break
  }
  return seen
}
