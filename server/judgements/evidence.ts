import type { Evidence } from "../dough/verdict/verdict.ts"

/** One piece of evidence as it is drawn and said: a bar from the middle of a line `barWidth` long. */
export type EvidenceBar = Evidence & { x: number; width: number; pulls: string; moved: string }

export const barWidth = 120
// The longest bar fills its half, but a class of weak hints does not look like proof. Our own choice.
const leastScale = Math.log(1.5)

/** Every piece of evidence with its pull, the strongest first. */
export function evidenceBars(evidence: Evidence[]): EvidenceBar[] {
  const scale = Math.max(leastScale, ...evidence.map(({ logShift }) => Math.abs(logShift)))
  return evidence
    .toSorted((a, b) => Math.abs(b.logShift) - Math.abs(a.logShift))
    .map((one) => {
      const width = (Math.abs(one.logShift) / scale) * (barWidth / 2)
      return { ...one, width, x: one.logShift < 0 ? barWidth / 2 - width : barWidth / 2, ...pullIn(one) }
    })
}

/**
 * "pulls clearly toward over", and by how much of what was intended it moved the middle. What speaks for under, but less
 * strongly than all the rest, moves the middle the other way.
 */
function pullIn({ pull, logShift }: Evidence) {
  const moved = movedBy(logShift)
  if (pull === "nothing") return { pulls: "says little of the proof", moved }
  const holdsBack = (pull === "under" && logShift > slight) || (pull === "over" && logShift < -slight)
  if (holdsBack) return { pulls: `says ${pull} as well, but less far than the rest`, moved }
  return { pulls: `pulls ${strength(logShift)}toward ${towards[pull]}`, moved }
}
const slight = 0.005
const towards = { under: "under", well: "well proofed", over: "over" }

function movedBy(logShift: number) {
  const percent = Math.round((Math.exp(logShift) - 1) * 100)
  return percent === 0 ? "" : `${percent > 0 ? "+" : "−"}${Math.abs(percent)} %`
}

/** In words what the length of the bar says. Our own choice of steps. */
function strength(logShift: number) {
  const size = Math.abs(logShift)
  if (size < 0.03) return "a very little "
  if (size < 0.1) return "a little "
  return size < 0.25 ? "clearly " : "strongly "
}
