import { isOneOf, type Pass } from "./remarks.ts"
import type { Token } from "./tokens.ts"

/** Single words that change how the whole line is meant. */
export const withoutMarkers: Pass = (tokens, remarks) =>
  tokens.flatMap((token, at): Token[] => {
    switch (meaningHere(token, tokens, at)) {
      case "about":
        remarks.about = true
        return []
      case "atLeast":
      case "orMore":
        remarks.openEnded = true
        return []
      case "upTo":
        remarks.upTo = true
        return []
      case "added":
        remarks.added = true
        return []
      case "loose":
        remarks.loose ??= token
        return []
      case "range":
        return [{ ...token, is: "dash" }]
      case "pounds":
        return [{ ...token, is: "unit", unit: { of: "mass", name: "lb" }, said: "# is read as pounds." }]
      case "foreign":
        remarks.foreign = token.is === "foreign" ? token.what : token.is === "ratio" ? "a ratio" : "a time"
        return []
      case "remark":
        return [{ ...token, is: "word" }]
      case "odd":
        return [{ ...token, is: "odd" }]
      case "between":
      case "drop":
        return []
      default:
        return [token]
    }
  })

/** What a word or sign means where it stands: "min. 500 g" and "10 min", "10+ cups" and "1 cup + 1 tbsp". */
function meaningHere(token: Token, tokens: Token[], at: number) {
  const [before, after] = [tokens[at - 1], tokens[at + 1]]
  const afterNumber = before?.is === "number"
  const beforeNumber = after?.is === "number"
  switch (token.is) {
    case "unit":
      return at === 0 && beforeNumber && /^c\.?$/i.test(token.text) ? "about" : "unit"
    case "remark":
      return at === 0 && beforeNumber && /^from$/i.test(token.text) ? fromOf(tokens) : "remark"
    case "about":
      return before && beforeNumber && /[~∼]/.test(token.text) ? "range" : "about"
    case "atLeast":
      return afterNumber && !beforeNumber && /^min/i.test(token.text) ? "foreign" : "atLeast"
    case "and":
      return tokens.slice(0, at).some(({ is }) => is === "between") ? "range" : "and"
    case "dash":
      return !after && token.text.startsWith(".") ? "drop" : "dash"
    case "or":
      return !after || isOneOf(after, "loose", "orMore") ? "drop" : "or"
    case "times":
    case "comma":
      return before && after ? token.is : "drop"
    case "hash":
      return afterNumber ? "pounds" : "odd"
    case "plus":
      if (!after || (afterNumber && after.is === "unit")) return "orMore"
      return at === 0 ? "added" : "plus"
    case "ratio":
      return afterNumber && beforeNumber ? "foreign" : "drop"
    case "filler":
    case "extra":
      return "drop"
    default:
      return token.is
  }
}

/** "from 60 to 90 g" is a range, "from 500 g" has no end. */
const fromOf = (tokens: Token[]) => (tokens.some((token) => isOneOf(token, "to", "dash")) ? "drop" : "atLeast")
