import { decodeHTML } from "entities"
import { withoutNul } from "../web/bodies.ts"

/**
 * The words in a string that may hold HTML, as pages put them into their data, often encoded twice. Only to be read by
 * people: pages escape it again. Tags are taken off by a plain pattern, because a parser of whole pages takes minutes over
 * what somebody could send.
 */
export function plainText(text: string): string {
  let plain = text
  for (let round = 0; round < 3 && /<\/?[a-z!]|&(?:#\d|#x[\da-f]|[a-z])/i.test(plain); round++)
    plain = decodeHTML(withoutTags(plain))
  return plain
    .split("\n")
    .map((line) => line.replace(/[^\S\n]+/g, " ").trim())
    .filter(Boolean)
    .join("\n")
}

const withoutTags = (text: string) =>
  text
    .replace(/<(?:br|\/?(?:p|li|ol|ul|div|h[1-6]|tr))\b[^<>]*>/gi, "\n")
    .replace(/<\/?[a-z][^<>]*>|<!--[^<>]*-->/gi, "")

/** What PostgreSQL's JSON takes of a string: no NUL, and no half of a character. */
export const storable = (text: string) => withoutNul(text).replace(/\p{Cs}/gu, "\ufffd")
