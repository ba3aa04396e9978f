import { isOneOf, type Kind, type Pass } from "./remarks.ts"
import type { Token } from "./tokens.ts"

/** What `withoutMarkers` looks for. */
export const markers: Kind[] = [
  ...(["about", "atLeast", "orMore", "upTo", "loose", "foreign", "remark", "hash", "plus", "ratio", "comma"] as const),
  ...(["filler", "extra", "unit", "between", "times"] as const),
]

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
  const leads = at === 0 && beforeNumber
  if (leads && /^c\.?$/i.test(token.text)) return "about"
  if (leads && /^from$/i.test(token.text))
    return tokens.some((other) => isOneOf(other, "to", "dash")) ? "drop" : "atLeast"
  if (token.is === "about" && /[~∼]/.test(token.text) && beforeNumber && before) return "range"
  if (/^min\b/i.test(token.text) && afterNumber && !beforeNumber) return "foreign"
  if (token.is === "and" && tokens.slice(0, at).some((other) => other.is === "between")) return "range"
  if (token.is === "times" && !(before && after)) return "drop"
  if (token.is === "hash") return afterNumber ? "pounds" : "odd"
  if (token.is === "plus" && (!after || (afterNumber && after.is === "unit"))) return "orMore"
  if (token.is === "plus" && at === 0) return "added"
  if (token.is === "ratio") return afterNumber && beforeNumber ? "foreign" : "drop"
  if (token.is === "comma") return before && after ? "comma" : "drop"
  return token.is === "filler" || token.is === "extra" ? "drop" : token.is
}
