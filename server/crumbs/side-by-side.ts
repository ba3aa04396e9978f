import type { FastifyRequest } from "fastify"
import { maySee } from "../photos/access.ts"
import { listBakesOf } from "../table/queries.ts"
import { em, nearnessOf } from "../table/wall.ts"
import { viewerOf } from "../web/access.ts"
import { type Measured, numbersOf } from "./numbers.ts"
import { type Crumb, listCrumbs } from "./queries.ts"

export const [fewest, most] = [2, 6]

/** The photos that an address names, each once: "?photos=…&photos=…", or several with commas between. */
export function chosenIn(query: unknown): string[] {
  const { photos } = (query ?? {}) as { photos?: unknown }
  const typed = [photos ?? []].flat().flatMap((text) => String(text).slice(0, 500).split(","))
  return [...new Set(typed.filter((text) => /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text)))]
}

/** Of these photos the crumbs that this person sees, in the order of the address. */
export async function listSeen(request: FastifyRequest, ids: string[]): Promise<Crumb[]> {
  const { db } = request.server
  const crumbs = await listCrumbs(db, ids.slice(0, most))
  const seen: Crumb[] = []
  for (const id of ids) {
    const crumb = crumbs.find(({ photo }) => photo.id === id && photo.subject === "crumb")
    const of = crumb && { ...crumb.photo, bakerId: crumb.bake.userId }
    if (of && (await maySee(db, viewerOf(request), of))) seen.push(crumb)
  }
  return seen
}

/** Crumbs of the same bake days that could hang beside these. */
export async function listOthers(request: FastifyRequest, crumbs: Crumb[]) {
  const days = [...new Set(crumbs.map(({ bake }) => bake.bakeDayId))]
  const viewer = viewerOf(request)
  const bakes = await Promise.all(days.map((bakeDayId) => listBakesOf(request.server.db, { bakeDayId }, { viewer })))
  return bakes
    .flat()
    .flatMap(({ name, nth, photos }) =>
      photos
        .filter(({ subject }) => subject === "crumb")
        .map(({ id, takenAt }) => ({ id, name: nth > 1 ? `${name}, bake ${nth}` : name, takenAt: new Date(takenAt) })),
    )
}

/** Crumbs beside each other at one scale when all have one, under the same even light, and their numbers against the first. */
export function sideBySide(crumbs: Crumb[], say: { day: (at: Date, zone?: string) => string }) {
  const toScale = crumbs.every(({ photo }) => photo.acrossMm !== null)
  const names = crumbs.map(({ bake }) => bake.name)
  const items = crumbs.map(({ photo, bake, measurement }) => {
    const measured = measurement?.result?.kind === "measured" ? measurement.result : null
    const [width, height] = measured ? [measured.even.width, measured.even.height] : [photo.width, photo.height]
    const mm = photo.acrossMm === null ? null : (photo.acrossMm * width) / photo.width
    const namesakes = names.filter((name) => name === bake.name).length > 1
    return {
      ...{ photo, bake, measured, width, height },
      called: namesakes ? `${bake.name}, ${say.day(photo.takenAt, bake.zone)}` : bake.name,
      mm: toScale ? mm : null,
      source: measured
        ? `/photos/${photo.id}/crumb/even?of=${encodeURIComponent(measurement!.asked)}`
        : `/photos/${photo.id}/large`,
      instead: measured ? "" : insteadOf(measurement),
    }
  })
  return {
    ...{ items, toScale, em },
    lines: linesOf(
      items.map(({ measured }) => measured, toScale),
      toScale,
    ),
    nearness: nearnessOf(items.map(({ mm }) => ({ acrossMm: mm }))),
    flagged: flaggedIn(items),
  }
}

/** What to bear in mind, once for all whom it concerns. */
function flaggedIn(items: { called: string; measured: Measured | null }[]) {
  const whose = new Map<string, string[]>()
  for (const { called, measured } of items)
    for (const { says } of measured?.cautions ?? []) whose.set(says, [...(whose.get(says) ?? []), called])
  return [...whose].map(([says, names]) => `${names.join(", ")}: ${says}`)
}

function insteadOf(measurement: Crumb["measurement"]) {
  const waits = !measurement || measurement.state === "waiting" || measurement.state === "running"
  return waits ? "Not measured yet: shown as it was sent." : "It cannot be measured: shown as it was sent."
}

/** A line for each number that any of them has; `differences` are those from the first, in per cent. */
function linesOf(all: (Measured | null)[], toScale: boolean) {
  // where one has no scale, sizes in mm² would stand beside sizes without one
  const numbers = all.map((one) => (one ? numbersOf(toScale ? one : { ...one, scaled: null, mmPerPx: null }) : []))
  const names = [...new Map(numbers.flat().map(({ of, name, unit }) => [of, { of, name, unit }])).values()]
  return names.map(({ of, name }) => {
    const cells = numbers.map((theirs) => theirs.find((one) => one.of === of))
    const first = cells[0]
    return {
      name,
      cells: cells.map((cell, i) => ({
        value: cell?.value ?? "not known",
        than: i > 0 && cell && first ? differenceWords(first.bare!, cell.bare!) : "",
      })),
    }
  })
}

function differenceWords(first: number, other: number) {
  if (first === 0) return ""
  if (other > 3 * first) return `${(other / first).toFixed(1)} times as much`
  const by = Math.round((100 * (other - first)) / first)
  return by === 0 ? "the same" : `${by > 0 ? "+" : "−"}${Math.abs(by)} %`
}
