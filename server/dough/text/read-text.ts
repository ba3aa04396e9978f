import { findIngredient } from "../ingredients/catalogue.ts"
import { splitLine } from "../quantity/split-line.ts"
import { durationsIn } from "./durations.ts"
import { factIn, isCredit, type Makes, nothingSaid } from "./facts.ts"
import { type Heading, headingIn } from "./headings.ts"
import { isIngredient, isUnmeasured, lineOf, type TextLine } from "./ingredient-lines.ts"
import { kindsIn } from "./kinds.ts"
import { listMark, undecorated, unlisted } from "./lines.ts"
import { type ListedPart, type PlacedPart, placeListed } from "./parts.ts"
import type { ReadStep, SaidStep } from "./said.ts"
import { readSteps } from "./steps.ts"

/** What a line of a text was taken for. "left" is not understood. */
export type Told = {
  text: string
  is: "title" | "about" | "credit" | "fact" | "heading" | "line" | "step" | "left"
}

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

type Region = "start" | "ingredients" | "steps" | "notes"
type At = { region: Region; isFirst: boolean; afterBlank: boolean; next: string; last?: Told }

/**
 * Reads a formula from a text as people paste it: a title, words about it, lists of ingredients under headings or none,
 * steps numbered or not, notes. Never throws, and drops no line.
 */
export function readText(text: string): ReadText {
  const lines = text.split(/\r\n|[\n\r\u2028\u2029]/).map((line) => line.trim())
  const reading = { title: "", about: [] as string[], credits: [] as string[], makes: nothingSaid, told: [] as Told[] }
  const listed: ListedPart[] = []
  const steps: SaidStep[] = []
  let region: Region = "start"
  let section = ""

  for (const [index, line] of lines.entries()) {
    if (line === "") continue
    const next = lines.slice(index + 1).find((other) => other !== "") ?? ""
    const last = reading.told.at(-1)
    const { is, heading, opens } = classify(line, {
      region,
      isFirst: !last,
      afterBlank: lines[index - 1] === "",
      next,
      last,
    })
    reading.told.push({ text: line, is })
    region = opens ?? region
    if (heading?.opens === "part" && opens === "ingredients") listed.push({ ...partOf(heading), lines: [] })
    else if (heading?.opens === "part")
      section = [section, undecorated(line).replace(/\s*:$/, "")].filter(Boolean).join(": ")
    else if (is === "title") reading.title = undecorated(line)
    else if (is === "about") reading.about.push(unlisted(line))
    else if (is === "credit") reading.credits.push(undecorated(line))
    else if (is === "fact") reading.makes = { ...reading.makes, ...factIn(line) }
    else if (is === "line") (listed.at(-1) ?? opened(listed)).lines.push(lineOf(line))
    else if (is === "step") {
      addStep(steps, line, section, lines[index - 1] === "" || last?.is !== "step")
      section = ""
    }
  }
  // a heading over nothing keeps its words
  if (section) reading.about.push(section)
  return { ...reading, ...placeListed(listed), steps: readSteps(steps) }
}

const partOf = ({ name, into, stays }: Extract<Heading, { opens: "part" }>) => ({ name, into, stays })

function opened(listed: ListedPart[]): ListedPart {
  const part = { name: "", lines: [] }
  listed.push(part)
  return part
}

type Classified = { is: Told["is"]; heading?: Heading; opens?: Region }

function classify(line: string, at: At): Classified {
  const heading = headingIn(line)
  if (heading && heading.opens !== "part") return { is: "heading", heading, opens: heading.opens }
  if (heading?.opens === "part" && opensPart(line, heading, at)) return { is: "heading", heading, opens: "ingredients" }
  if (isCredit(line, at.region === "start" && !at.isFirst)) return { is: "credit" }
  if (at.region !== "steps" && !at.isFirst && factIn(line)) return { is: "fact" }
  if (at.isFirst && isTitle(line)) return { is: "title" }
  if (heading?.opens === "part" && heading.isSure && at.region === "steps" && !isStep(line))
    return { is: "heading", heading }
  if (at.region === "notes") return { is: "about" }
  if (at.region === "steps") return inSteps(line)
  if (isIngredient(line)) return { is: "line", opens: "ingredients" }
  if (isStep(line, at.region === "start")) return { is: "step", opens: "steps" }
  if (at.region === "ingredients" && isBare(line, at)) return { is: "line" }
  return { is: wordsIn(line) >= 5 ? "about" : "left" }
}

/** A name that may be an ingredient opens a part where a list follows and nothing speaks for its being one of a list. */
function opensPart(line: string, { isSure, name }: Extract<Heading, { opens: "part" }>, at: At) {
  if (at.isFirst && !line.endsWith(":") && !onlyPart.test(name)) return false
  const listFollows = isIngredient(at.next) || (isSure && at.region === "ingredients" && !isStep(at.next))
  if (!listFollows || (at.region === "steps" && isStep(line))) return false
  return isSure || at.afterBlank || at.region !== "ingredients" || at.last?.is !== "line"
}
const onlyPart =
  /^(?:the )?(?:levain|leaven|starter|poolish|biga|sponge|pre-?ferment|soaker|tangzhong|(?:final |main |bread )?dough|filling|topping|glaze)$/i

/** A first line that is no amount of anything known: "100 % rye bread" is a title, "500 g bread flour" none. */
function isTitle(line: string) {
  const plain = undecorated(line)
  if (plain.length > 120 || isStep(line)) return false
  const { quantity, ingredient } = splitLine(plain)
  return !(quantity && isIngredient(line) && findIngredient(ingredient))
}

function inSteps(line: string): Classified {
  if (!listMark(line) && isIngredient(line)) return { is: "line", opens: "ingredients" }
  return { is: "step" }
}

/** Whether a line tells somebody to do something; a time alone says so only once there is something to do it with. */
function isStep(line: string, isEarly = false) {
  const text = unlisted(line)
  const [first] = kindsIn(text)
  const isOrder = first?.start === 0 && wordsIn(text) >= 2 && /^[\p{Lu}\d]/u.test(text)
  const isNumbered = /^\s*(?:step\s*)?\(?\d{1,2}[.):]?\s/i.test(line) && wordsIn(text) >= 3
  return (
    (isOrder || isNumbered || (!isEarly && durationsIn(text).length > 0 && wordsIn(text) >= 5)) && !isIngredient(line)
  )
}

/** "Salt", "flour for dusting": a line without an amount among lines of a list. */
const isBare = (line: string, { last, next }: At) =>
  isUnmeasured(line) && (listMark(line) !== "" || wordsIn(line) <= 6) && (last?.is !== "about" || isIngredient(next))

const wordsIn = (text: string) => text.match(/\p{L}+/gu)?.length ?? 0

/** A step of its own, one more line of the step before, or what ends that one or helps with it. */
function addStep(steps: SaidStep[], line: string, section: string, isApart: boolean) {
  const last = steps.at(-1)
  const [, label = "", rest = ""] = /^(done when|tips?)\b:?\s+(.+)$/i.exec(unlisted(line)) ?? []
  const field = label.toLowerCase() === "done when" ? "cue" : "tip"
  if (last && label && last[field] === undefined && rest.length < 1000 && !section) last[field] = rest
  else if (last && !isApart && !section && goesOn(last.text, line)) {
    last.text = `${last.text} ${line}`
    last.from = `${last.from} ${line}`
    return
  } else {
    steps.push({ text: line, from: line, ...(section && { section }) })
    return
  }
  last.from = `${last.from} ${line}`
}

const goesOn = (before: string, line: string) =>
  listMark(line) === "" && /^[\p{Ll}(]/u.test(line) && !/[.!?:]$/.test(before)
