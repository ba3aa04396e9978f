import { predictReady, type Question, type Time } from "./prediction.ts"

/** A reading that could be taken now, and the question as it would be asked with it. */
export type Candidate<Kind extends string> = { kind: Kind; question: Question }

/** The reading that helps most: how wide the 80 % range is without it and would be with it, in minutes. */
export type Sharper<Kind extends string> = { kind: Kind; fromMin: number; toMin: number }

/**
 * Of readings that could be taken now the one that narrows the range of this time most, each taken to come out as
 * expected; undefined when none narrows it by a fifth and by ten minutes (our own judgement of what is worth washing
 * one's hands for), or when there is no range. Throws like predictReady.
 */
export function sharpestReading<Kind extends string>(
  time: Time,
  candidates: Candidate<Kind>[],
): Sharper<Kind> | undefined {
  const fromMin = widthMin(time)
  if (fromMin === undefined) return undefined
  const sharper = candidates.flatMap(({ kind, question }) => {
    const toMin = widthMin(predictReady(question))
    return toMin === undefined ? [] : [{ kind, fromMin, toMin }]
  })
  const best = sharper.sort((a, b) => a.toMin - b.toMin)[0]
  return best && fromMin - best.toMin >= Math.max(fromMin * leastShare, leastMin) ? best : undefined
}
const leastShare = 0.2
const leastMin = 10

/** Undefined without a range that ends at both sides. */
function widthMin(time: Time): number | undefined {
  return time.kind === "ready" && time.latest ? (+time.latest - +time.earliest) / 60_000 : undefined
}
