import { typedIn } from "../web/forms.ts"
import type { Choice } from "./choices.ts"
import { type Lined, linings } from "./places.ts"
import { type Column, columns } from "./sorting.ts"
import { type TraitKey, traitKeys } from "./values.ts"

/**
 * What an address asks of a table: the order of its rows, what they are lined up by, what they are grouped by, the bakes of
 * which band only, and large type for a room.
 */
export type Asked = {
  sort: Column
  way: "up" | "down"
  lined: Lined
  by: TraitKey | ""
  only: { [Key in TraitKey]?: string }
  large: boolean
}

/** Anything that cannot be asked for is as if it were not there. */
export function askedIn(query: unknown, choices: Choice[], stageKeys: string[]): Asked {
  const typed = typedIn(query)
  const oneOf = <One extends string>(all: readonly One[], text: string | undefined) => all.find((one) => one === text)
  const from = stageKeys.map((key): Lined => `from-${key}`)
  const bands = choices.map(({ key, bands }) => [key, bands.find((band) => band.key === typed[key])?.key])
  return {
    sort: oneOf(columns, typed.sort) ?? "name",
    way: typed.way === "down" ? "down" : "up",
    lined: oneOf([...linings, ...from], typed.lined) ?? "table",
    by: oneOf(traitKeys, choices.find(({ key }) => key === typed.by)?.key) ?? "",
    only: Object.fromEntries(bands.filter(([, band]) => band !== undefined)),
    large: typed.for === "projector",
  }
}

/** The same as an address has it; what is usual is left out but for the order, which every page of a table says. */
export function addressOf({ sort, way, lined, by, only, large }: Asked): string {
  const rest = { ...(by ? { by } : {}), ...only, ...(large ? { for: "projector" } : {}) }
  return new URLSearchParams({ sort, way, lined, ...rest }).toString()
}
