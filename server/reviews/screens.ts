import type { Plot } from "../plots/plot.ts"
import { wallsOf } from "./markdown.ts"
import type { Shown, ShownBake } from "./shown.ts"

/** One thing on a wall. A bake or half of a pair is null when it is not shared any more. */
export type Screen =
  | { kind: "title" }
  | { kind: "words"; html: string }
  | { kind: "pair"; left: ShownBake | null; right: ShownBake | null; why: string }
  | { kind: "bake"; bake: ShownBake }
  | { kind: "plot"; plot: Plot }
  | { kind: "next"; words: string }

/** A review as it is shown to a room, in the order in which it is read. A bake that is not shared any more is left out. */
export function screensOf({ words, pairs, bakes, plots, nextTime }: Shown): Screen[] {
  return [
    { kind: "title" },
    ...wallsOf(words).map((html): Screen => ({ kind: "words", html })),
    ...pairs.map((pair): Screen => ({ kind: "pair", ...pair })),
    ...bakes.flatMap((bake): Screen[] => (bake ? [{ kind: "bake", bake }] : [])),
    ...plots.map((plot): Screen => ({ kind: "plot", plot })),
    ...(nextTime ? [{ kind: "next", words: nextTime } as const] : []),
  ]
}
