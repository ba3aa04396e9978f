import { wallTime } from "../web/zones.ts"

/** Letters without their accents, lower case, everything else a hyphen: fit for every file system. "" when nothing is left. */
export function slug(text: string, most = 40): string {
  const plain = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase()
  return plain
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, most)
    .replace(/^-+|-+$/g, "")
}

/** For each person a slug that nobody else has: two of one name, and names that no slug can hold, are told apart by a number. */
export function slugsOf(people: { userId: number; name: string }[]): Map<number, string> {
  const slugs = new Map<number, string>()
  const taken = new Set<string>()
  for (const { userId, name } of people) {
    if (slugs.has(userId)) continue
    const free = numbered(slug(name) || "baker", taken)
    taken.add(free)
    slugs.set(userId, free)
  }
  return slugs
}

function numbered(wanted: string, taken: Set<string>) {
  if (!taken.has(wanted)) return wanted
  for (let number = 2; ; number++) if (!taken.has(`${wanted}-${number}`)) return `${wanted}-${number}`
}

type Photo = { id: string; subject: string; takenAt: Date }

/**
 * "amparo-2-crumb-2026-11-20T1930.jpg": whose, which of their bakes, what, and when by the class's clock. Photos of one bake
 * that would have the same name are numbered; those of two bakes cannot have one, as no two bakers have the same slug.
 */
export function photoNames(photos: Photo[], { slug, nth, zone }: { slug: string; nth: number; zone: string }) {
  const taken = new Set<string>()
  return new Map(
    photos.map(({ id, subject, takenAt }) => {
      const wanted = `${slug}-${nth}-${subject}-${wallTime(takenAt, zone).replace(":", "")}`
      const free = numbered(wanted, taken)
      taken.add(free)
      return [id, `${free}.jpg`]
    }),
  )
}

/** "tin-loaf-week-readings.csv" as the header that makes a browser keep it. */
export function asAttachment({ id, title }: { id: number; title: string }, file: string) {
  return `attachment; filename="${slug(title) || `bake-day-${id}`}-${file}"`
}
