import type { Suspect, Verdict } from "../dough/verdict/verdict.ts"

type Told = Suspect & { chanceWords: string }

/** Below this an explanation is only named among the unlikely. Our own choice. */
const likely = 0.08
const most = 5

/** The explanations that compete, most likely first: those worth reading in full, and the names of the rest. */
export function suspectsIn({ suspects }: Pick<Verdict, "suspects">): { likely: Told[]; others: Told[] } {
  const told = suspects.map((one) => ({ ...one, chanceWords: chanceIn(one.chance) }))
  const worth = told.filter(({ chance }, index) => index < most && (index === 0 || chance >= likely))
  return { likely: worth, others: told.slice(worth.length) }
}

/** Never a false 0 or 100. */
function chanceIn(chance: number) {
  const percent = Math.round(chance * 100)
  if (percent <= 0) return "under 1 %"
  return percent >= 100 ? "over 99 %" : `${percent} %`
}
