import { wellBand } from "../dough/verdict/hypotheses.ts"
import type { Evidence, Verdict } from "../dough/verdict/verdict.ts"

type Bar = { x: number; width: number; middle: number }
/** One piece of evidence as it is drawn and said. */
export type Told = Evidence & { bar: Bar; pulls: string }

const lineWidth = 120
// Log progress at the ends of the line, as under the hill: from a third to three times what was intended.
const end = Math.log(3)
const xOf = (progress: number) => ((Math.min(Math.max(progress, -end), end) + end) / (2 * end)) * lineWidth

/**
 * Every piece of evidence as a bar over one line from under to over, the one that pulls hardest first: where it alone would
 * put the dough, one standard deviation to either side. What says little of the proof stands apart.
 */
export function evidenceIn(verdict: Verdict) {
  const told = verdict.evidence.map((one): Told => ({ ...one, bar: barOf(one.alone), pulls: pullIn(one) }))
  const weight = ({ alone, logShift }: Told) => Math.abs(logShift) / alone.sd + 0.1 / alone.sd
  return {
    evidence: told.filter(({ pull }) => pull !== "nothing").sort((a, b) => weight(b) - weight(a)),
    silent: told.filter(({ pull }) => pull === "nothing"),
    band: { x: xOf(-wellBand), width: xOf(wellBand) - xOf(-wellBand) },
    together: "mean" in verdict ? barOf(verdict) : null,
  }
}

function barOf({ mean, sd }: Evidence["alone"]): Bar {
  const x = xOf(mean - sd)
  return { x, width: xOf(mean + sd) - x, middle: xOf(mean) }
}

/** "pulls clearly toward over": in words what the bar shows. The steps are our own choice. */
function pullIn({ pull, logShift, alone }: Evidence) {
  if (pull === "nothing") return "says little of the proof"
  if (pull === "well") return `speaks ${alone.sd < 0.3 ? "clearly " : ""}for well proofed`
  const size = Math.abs(logShift)
  const strength = size < 0.05 ? "a little " : size < 0.15 ? "" : size < 0.3 ? "clearly " : "strongly "
  return `pulls ${strength}toward ${pull}`
}
