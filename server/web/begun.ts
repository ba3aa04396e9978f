import type { Typed } from "./forms.ts"

/** What the fields of a form begin with, each with where that comes from, to be said beside it. */
export type Begun = Record<string, { typed: string; from?: string }>

/** The first values by themselves. */
export const firstOf = (begun: Begun): Typed =>
  Object.fromEntries(Object.entries(begun).map(([field, { typed }]) => [field, typed]))

/** Where those values come from that are still as they began. */
export const sourcesOf = (begun: Begun, typed: Typed): Record<string, string> =>
  Object.fromEntries(
    Object.entries(begun).flatMap(([field, one]) =>
      one.from && typed[field] === one.typed ? [[field, one.from]] : [],
    ),
  )
