/** A line with what only marks it as a heading or as one of a list taken off, and its spaces single. */
export const undecorated = (line: string) =>
  line
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^(?:#{1,6} |>+ |[*_=~]{1,3}(?=\S)|[-–—=*_]{2,} ?)+/, "")
    .replace(/(?:[*_=~]{1,3}| ?[-–—=*_]{2,}| #{1,6})$/, "")
    .replace(/([:])[*_]{1,3}$/, "$1")
    .trim()

/** The number or dot that stands before a line of a list: "1. ", "Step 2: ", "• ". "" for a line without one. */
export const listMark = (line: string) =>
  /^\s*(?:(?:step|stage)\s+\d{1,2}\s*[.:)–—-]?\s*|\d{1,2}\s*[.)]\s+|\(\d{1,2}\)\s*|[-–—•·*▢□☐○●◦‣▪✓✔]\s+)/iu.exec(
    line,
  )?.[0] ?? ""

/** Without its mark of a list. */
export const unlisted = (line: string) => line.slice(listMark(line).length).trim()

// What ends in a full stop and is no end of a sentence.
const abbreviated = /\b(?:approx|ca|fl|no|e\.g|i\.e|vs|temp|deg|dia|max|dr|mr|mrs)\.$/i

/**
 * The sentences of a text, each with its own full stop; together they are the text with single spaces. A stop after a
 * number or an abbreviation ends none.
 */
export function sentencesOf(text: string): string[] {
  const pieces = text
    .replace(/\s+/g, " ")
    .trim()
    .split(/(?<=[.!?…][)"”’]?) (?=[\p{Lu}“"(\d¼-¾])/u)
  const sentences: string[] = []
  for (const piece of pieces) {
    const last = sentences.at(-1)
    if (last !== undefined && abbreviated.test(last)) sentences[sentences.length - 1] = `${last} ${piece}`
    else if (piece) sentences.push(piece)
  }
  return sentences
}
