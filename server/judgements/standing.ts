import type { Judgement } from "./queries.ts"

/** The newest word of the baker and of the instructors that nobody took back, from all that was said in its order. */
export function standingOf<One extends Pick<Judgement, "by" | "removedAt">>(said: One[]) {
  const newest = (by: Judgement["by"]) => said.findLast((one) => one.by === by && !one.removedAt)
  return { baker: newest("baker"), instructor: newest("instructor") }
}

/** "baker: cannot tell", "instructor: overproofed": the words that stand beside the model's. */
export function standingIn(said: Pick<Judgement, "by" | "removedAt" | "call">[]): string[] {
  return Object.entries(standingOf(said)).flatMap(([who, one]) => (one ? [`${who}: ${callWords[one.call]}`] : []))
}

export const callWords = {
  under: "underproofed",
  well: "well proofed",
  over: "overproofed",
  unsure: "cannot tell",
} as const
