import type { Judgement } from "./queries.ts"

/** The newest word of the baker and of the instructors that nobody took back, from all that was said in its order. */
export function standingOf<One extends Pick<Judgement, "by" | "removedAt">>(said: One[]) {
  const newest = (by: Judgement["by"]) => said.findLast((one) => one.by === by && !one.removedAt)
  return { baker: newest("baker"), instructor: newest("instructor") }
}

export const callWords = {
  under: "underproofed",
  well: "well proofed",
  over: "overproofed",
  unsure: "cannot tell",
} as const
