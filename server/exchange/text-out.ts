import type { Say } from "../accounts/say.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { aroundName, lineWords, makesWords, partName, placeWords, timeWords } from "./words.ts"

/** A formula as a text to read, to send and to paste, which our own import reads back. Lines end as in e-mail. */
export function textOf(title: string, content: FormulaContent, say: Say): string {
  const paragraphs = [
    [title],
    content.about.split("\n"),
    factsOf(content),
    ["Ingredients"],
    ...content.parts.map((part, at) => {
      const place = placeWords(part, content)
      return [`${partName(part, at)}${place && ` (${place})`}:`, ...part.lines.map(listed)]
    }),
    content.finishing.length ? [`${aroundName}:`, ...content.finishing.map(listed)] : [],
    ["Stages"],
    content.stages.flatMap((stage, at) => [
      `${at + 1}. ${stage.name} (${stage.kind}): ${timeWords(stage, say)}`,
      ...(stage.cue ? [`   Done when ${oneLine(stage.cue)}`] : []),
      ...(stage.tip ? [`   Tip: ${oneLine(stage.tip)}`] : []),
    ]),
    ...waysOf(content),
  ]
  const written = paragraphs.map((lines) => lines.filter((line) => line.trim()).join("\r\n"))
  return `${written.filter(Boolean).join("\r\n\r\n")}\r\n`
}

function factsOf(content: FormulaContent) {
  const makes = makesWords(content)
  return [
    makes && `Makes ${makes}`,
    content.pan && `Pan: ${content.pan}`,
    `Cups and spoons: ${measureNames[content.measures]}`,
  ].filter(Boolean)
}

/** The other ways to make it, to read: as notes they come back as words. */
function waysOf({ variants, parts }: FormulaContent) {
  if (!variants.length) return []
  const told = variants.flatMap(({ name, about, swaps }) => [
    `${name}: ${oneLine(about)}`,
    ...swaps.map(({ part, insteadOf, lines }) => {
      const at = parts.findIndex(({ key }) => key === part)
      const place = at < 0 ? "" : partName(parts[at]!, at)
      return `- instead of ${insteadOf ? `${insteadOf} in ${place}` : `all of ${place}`}: ${lines.map(lineWords).join("; ") || "nothing"}`
    }),
  ])
  return [["Notes"], told]
}

const listed = (line: Parameters<typeof lineWords>[0]) => `- ${lineWords(line)}`
const oneLine = (text: string) => text.replace(/\s+/g, " ").trim()
