import type { ReviewContent } from "./content.ts"

/** Where another draft says something else than one's own: their texts to read, and what they chose otherwise. */
export function differing(mine: ReviewContent, theirs: ReviewContent, nameOf: (userId: number) => string) {
  const texts = [
    { of: "Title", mine: mine.title, theirs: theirs.title },
    { of: "Words", mine: mine.words, theirs: theirs.words },
    { of: "Next time", mine: mine.nextTime, theirs: theirs.nextTime },
    { of: "Pairs", mine: pairsIn(mine), theirs: pairsIn(theirs) },
    ...[...new Set([...mine.forStudents, ...theirs.forStudents].map(({ userId }) => userId))].map((userId) => ({
      of: `For ${nameOf(userId)}`,
      mine: wordsTo(mine, userId),
      theirs: wordsTo(theirs, userId),
    })),
  ]
  const chose = [
    same(mine.bakes, theirs.bakes) ? "" : "bakes or photos",
    same(mine.pairs.map(sides), theirs.pairs.map(sides)) ? "" : "pairs",
    same(mine.plots, theirs.plots) ? "" : "plots",
    same([mine.showVerdicts, mine.showCauses], [theirs.showVerdicts, theirs.showCauses])
      ? ""
      : "what is shown of verdicts and causes",
  ]
  return { texts: texts.filter((text) => text.mine !== text.theirs), chose: chose.filter(Boolean) }
}

const pairsIn = ({ pairs }: ReviewContent) => pairs.map(({ why }) => why).join("\n\n")
const wordsTo = ({ forStudents }: ReviewContent, userId: number) =>
  forStudents.find((one) => one.userId === userId)?.words ?? ""
const sides = ({ left, right }: ReviewContent["pairs"][number]) => [left, right]
const same = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other)
