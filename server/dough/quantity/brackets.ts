import type { Pass } from "./remarks.ts"

/** Brackets that say nothing: without their other half, around the whole line or another pair, or around "or 8 g instant". */
export const withoutIdleBrackets: Pass = (tokens) => {
  const pairs = new Map<number, number>()
  const opened: number[] = []
  for (const [at, { is }] of tokens.entries()) {
    if (is === "open") opened.push(at)
    const open = is === "close" ? opened.pop() : undefined
    if (open !== undefined) pairs.set(open, at)
  }
  const isIdle = ([open, close]: [number, number]) =>
    open === 0 || pairs.get(open - 1) === close + 1 || ["or", "plus", "minus"].includes(tokens[open + 1]!.is)
  const kept = new Set([...pairs].filter((pair) => !isIdle(pair)).flat())
  return tokens.filter(({ is }, at) => (is !== "open" && is !== "close") || kept.has(at))
}
