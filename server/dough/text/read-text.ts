import { type Classified, classify, type Is, linesOf, type Region } from "./classify.ts"
import { factIn, type Makes, nothingSaid } from "./facts.ts"
import { lineOf, type TextLine } from "./ingredient-lines.ts"
import { listMark, undecorated, unlisted } from "./lines.ts"
import { type ListedPart, type PlacedPart, placeListed } from "./parts.ts"
import { mostLetters, type ReadStep, type SaidStep } from "./said.ts"
import { readSteps } from "./steps.ts"

/** A line as it came, and what it was taken for. */
export type Told = { text: string; is: Is }

/**
 * A pasted text as far as it can be read. `told` has every line that is not blank, in its order and as it came, with what
 * it was taken for; `about` and `credits` are lines kept word for word.
 */
export type ReadText = {
  title: string
  about: string[]
  credits: string[]
  makes: Makes
  parts: PlacedPart[]
  finishing: TextLine[]
  steps: ReadStep[]
  told: Told[]
}

/**
 * Reads a formula from a text as people paste it: a title, words about it, lists of ingredients under headings or none,
 * steps numbered or not, notes. Never throws, and drops no line.
 */
export function readText(text: string): ReadText {
  const lines = linesOf(text)
  const told: Told[] = []
  const reading = { title: "", about: [] as string[], credits: [] as string[], makes: nothingSaid }
  const listed: ListedPart[] = []
  const steps: SaidStep[] = []
  let region: Region = "start"
  let section = ""

  for (const [index, line] of lines.entries()) {
    const last = told.at(-1)?.is
    const { is, heading, opens }: Classified = classify(line, { region, last, next: lines[index + 1] })
    told.push({ text: line.text, is })
    region = opens ?? region
    if (heading?.opens === "part" && region === "ingredients")
      listed.push({ name: heading.name, into: heading.into, stays: heading.stays, lines: [] })
    else if (heading?.opens === "part") section = [section, named(line.text)].filter(Boolean).join(": ")
    else if (is === "title") reading.title = undecorated(line.text)
    else if (is === "about") reading.about.push(unlisted(line.text))
    else if (is === "credit") reading.credits.push(undecorated(line.text))
    else if (is === "fact") reading.makes = { ...reading.makes, ...factIn(line.text) }
    else if (is === "line") (listed.at(-1) ?? opened(listed)).lines.push(lineOf(line.text))
    else if (is === "step") {
      addStep(steps, line.text, { section, isApart: line.afterBlank || last !== "step" })
      section = ""
    }
  }
  // a heading over nothing keeps its words
  if (section) reading.about.push(section)
  return { ...reading, ...placeListed(listed), steps: readSteps(steps), told }
}

const named = (heading: string) => undecorated(heading).replace(/\s*:$/, "")

function opened(listed: ListedPart[]): ListedPart {
  const part = { name: "", lines: [] }
  listed.push(part)
  return part
}

/** A step of its own, one more line of the step before, or what ends that one or helps with it. */
function addStep(steps: SaidStep[], line: string, { section, isApart }: { section: string; isApart: boolean }) {
  const last = steps.at(-1)
  const [, label = "", rest = ""] = /^(done when|tips?)\b:?\s+(.+)$/i.exec(unlisted(line)) ?? []
  const field = label.toLowerCase() === "done when" ? "cue" : "tip"
  const isWithLast = last && !section
  if (isWithLast && label && last[field] === undefined && last.text.length + rest.length < mostLetters) {
    steps[steps.length - 1] = { ...last, [field]: rest, from: `${last.from} ${line}` }
  } else if (isWithLast && !isApart && goesOn(last.text, line)) {
    steps[steps.length - 1] = { ...last, text: `${last.text} ${line}`, from: `${last.from} ${line}` }
  } else steps.push({ text: line, from: line, ...(section && { section }) })
}

const goesOn = (before: string, line: string) =>
  listMark(line) === "" && /^[\p{Ll}(]/u.test(line) && !/[.!?:]$/.test(before)
