import type { Sign } from "./lexicon.ts"
import type { Span, Token } from "./tokens.ts"

/** A place in a row of tokens. */
export type Cursor = { tokens: Token[]; at: number }

/** The token a cursor is at, or one further on; undefined past the end. */
export const next = (cursor: Cursor, ahead = 0) => cursor.tokens[cursor.at + ahead]

/** Steps over the next token if it is one of these signs, and says whether it was. */
export function skip(cursor: Cursor, ...signs: Sign[]): boolean {
  const found = signs.some((sign) => next(cursor)?.is === sign)
  if (found) cursor.at++
  return found
}

/** What `read` finds here; when it finds nothing, the cursor is where it was. */
export function attempt<T>(cursor: Cursor, read: () => T | undefined): T | undefined {
  const { at } = cursor
  const found = read()
  if (found === undefined) cursor.at = at
  return found
}

/** From the first start to the last end. */
export function spanOf(spans: Span[]): Span {
  let [start, end] = [Number.POSITIVE_INFINITY, 0]
  for (const span of spans) {
    start = Math.min(start, span.start)
    end = Math.max(end, span.end)
  }
  return { start, end }
}
