import type { Token } from "./tokens.ts"

/** What a line says beside its amounts. */
export type Remarks = {
  about?: true
  openEnded?: true
  /** "up to": its lower end is missing. */
  upTo?: true
  /** "to taste", "as needed". */
  loose?: Token
  /** "+ 100 g" alone. */
  added?: true
  /** "plus extra for dusting", word by word. */
  notCounted: string[]
  notes: string[]
  /** Another quantity than an amount: a temperature, a time, a ratio... */
  foreign?: string
  /** "2 % milk" alone, which may be the milk's fat. */
  strength?: string
  /** "half the flour", "1/3 of the water". */
  partOf?: { part: Token; of: string }
  /** What a percentage is of, when it is not the flour. */
  base?: string
}

/** Takes something out of a line and notes what it said. */
export type Pass = (tokens: Token[], remarks: Remarks) => Token[]
/** What a token is. */
export type Kind = Token["is"]

/** Whether there is a token of one of these kinds. */
export const isOneOf = (token: Token | undefined, ...kinds: Token["is"][]) => kinds.some((kind) => kind === token?.is)

/** Words that change an amount in a way only the baker knows ("per loaf", "twice"), and signs that mean nothing here. */
export const isTricky = (token: Token) => token.is === "odd" || (token.is === "word" && token.tricky === true)
