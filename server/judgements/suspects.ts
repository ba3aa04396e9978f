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

/** What explains the bread, in a sentence beside how far its dough had come; "" where there is nothing to add to that. */
export function namedIn({ call, suspects }: Verdict): string {
  const [first, second] = suspects
  if (call === "not enough to say" || !first) return ""
  if (first.key === "nothing wrong") return "Nothing is wrong with it, as far as this tells."
  const proof = first.key === "underproofed" || first.key === "overproofed"
  if (!proof) return `The likeliest explanation, ${chanceIn(first.chance)}.`
  return second && second.chance >= worthNaming
    ? `Or, less likely: ${lower(second.name)}, ${chanceIn(second.chance)}.`
    : ""
}
/** Our own choice. */
const worthNaming = 0.15
const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1)

/** Never a false 0 or 100. */
function chanceIn(chance: number) {
  const percent = Math.round(chance * 100)
  if (percent <= 0) return "under 1 %"
  return percent >= 100 ? "over 99 %" : `${percent} %`
}
