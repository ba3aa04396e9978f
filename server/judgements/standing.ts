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

/** "under 3 %, well 6 %, over 91 %": whole percents that add up to 100, as on the table. */
export function chancesIn({ under, over }: NonNullable<Judgement["model"]>): string {
  const [low, high] = [Math.round(under * 100), Math.round(over * 100)]
  return `under ${low} %, well ${100 - low - high} %, over ${high} %`
}

export const callWords = {
  under: "underproofed",
  well: "well proofed",
  over: "overproofed",
  unsure: "cannot tell",
} as const
