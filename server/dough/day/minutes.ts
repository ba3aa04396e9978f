/** Stretches of time, in minutes from some instant, both ends included, in order and apart from each other. */
export type Spans = [from: number, to: number][]

/** What two have in common. */
export function common(a: Spans, b: Spans): Spans {
  const both: Spans = []
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const from = Math.max(a[i]![0], b[j]![0])
    const to = Math.min(a[i]![1], b[j]![1])
    if (from <= to) both.push([from, to])
    if (a[i]![1] < b[j]![1]) i++
    else j++
  }
  return both
}

/** Every sum of a minute in the spans and one from low to high; backwards in time with a low and high below 0. */
export function spread(spans: Spans, low: number, high: number): Spans {
  const wider: Spans = []
  for (const [from, to] of spans) {
    const last = wider.at(-1)
    if (last && from + low <= last[1]) last[1] = Math.max(last[1], to + high)
    else wider.push([from + low, to + high])
  }
  return wider
}

/** Time nobody is free in, its ends left out, in minutes and in order of its beginning. */
export type Taken = { from: number; to: number }

/** From when on so many minutes are free together. */
export function freeFor(minutes: number, taken: Taken[]): Spans {
  const free: Spans = []
  let from = Number.NEGATIVE_INFINITY
  for (const one of taken) {
    if (one.from - minutes >= from) free.push([from, one.from - minutes])
    from = Math.max(from, one.to)
  }
  return [...free, [from, Number.POSITIVE_INFINITY]]
}

/** The minute in the spans that is nearest to the wished one, a whole one if there is any beside it; undefined in none. */
export function nearest(spans: Spans, wished: number): number | undefined {
  let best: number | undefined
  for (const [from, to] of spans) {
    const one = inside(from, to, wished)
    if (best === undefined || Math.abs(one - wished) < Math.abs(best - wished)) best = one
  }
  return best
}

function inside(from: number, to: number, wished: number) {
  const [low, high] = [Math.ceil(from), Math.floor(to)]
  return low <= high ? Math.min(Math.max(Math.round(wished), low), high) : Math.min(Math.max(wished, from), to)
}
