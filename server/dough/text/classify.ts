import { findIngredient } from "../ingredients/catalogue.ts"
import { splitLine } from "../quantity/split-line.ts"
import { durationsIn } from "./durations.ts"
import { factIn, isCredit } from "./facts.ts"
import { type Heading, headingIn } from "./headings.ts"
import { isIngredient, isUnmeasured } from "./ingredient-lines.ts"
import { kindsIn } from "./kinds.ts"
import { listMark, undecorated, unlisted } from "./lines.ts"

/** A line of a text that is not blank. `reads` is whether it reads as an ingredient with its amount. */
export type Line = { text: string; afterBlank: boolean; reads: boolean }
/** What a line was taken for. "fact" is a yield, a pan or whose cups; "left" is not understood. */
export type Is = "title" | "about" | "credit" | "fact" | "heading" | "line" | "step" | "left"
export type Region = "start" | "ingredients" | "steps" | "notes"
/** Where a line stands: in which region, after what, before which line. */
export type At = { region: Region; last?: Is; next?: Line }
/** `opens` is the region that begins with the line. */
export type Classified = { is: Is; heading?: Heading; opens?: Region }

/** The lines of a text that are not blank. */
export function linesOf(text: string): Line[] {
  const lines: Line[] = []
  let afterBlank = true
  for (const each of text.split(/\r\n|[\n\r\u2028\u2029]/)) {
    const line = each.trim()
    if (line) lines.push({ text: line, afterBlank, reads: isIngredient(line) })
    afterBlank = line === ""
  }
  return lines
}

/** What a line is, by its own words, its neighbours, and the region it stands in. Never throws. */
export function classify(line: Line, at: At): Classified {
  const { text } = line
  const isFirst = at.last === undefined
  const heading = headingIn(text)
  if (heading && heading.opens !== "part") return { is: "heading", heading, opens: heading.opens }
  if (heading && opensPart(line, heading, at)) return { is: "heading", heading, opens: "ingredients" }
  if (isCredit(text, at.region === "start" && !isFirst)) return { is: "credit" }
  if (at.region !== "steps" && !isFirst && factIn(text)) return { is: "fact" }
  if (isFirst && isTitle(line)) return { is: "title" }
  if (heading?.isSure && at.region === "steps" && !isStep(line)) return { is: "heading", heading }
  if (at.region === "notes") return { is: "about" }
  // a list may go on between steps, but not under their numbers
  if (at.region === "steps")
    return line.reads && !listMark(text) ? { is: "line", opens: "ingredients" } : { is: "step" }
  if (line.reads) return { is: "line", opens: "ingredients" }
  if (isStep(line, at.region === "start")) return { is: "step", opens: "steps" }
  if (at.region === "ingredients" && isBare(text, at)) return { is: "line" }
  return { is: wordsIn(text) >= 5 ? "about" : "left" }
}

type PartHeading = Extract<Heading, { opens: "part" }>

/** A name that may be an ingredient opens a part where a list follows and nothing speaks for its being one of a list. */
function opensPart(line: Line, { isSure, name }: PartHeading, { region, last, next }: At) {
  if (last === undefined && !line.text.endsWith(":") && !onlyPart.test(name)) return false
  const listFollows = next?.reads || (isSure && region === "ingredients" && !(next && isStep(next)))
  if (!listFollows || (region === "steps" && isStep(line))) return false
  return isSure || line.afterBlank || region !== "ingredients" || last !== "line"
}
const onlyPart =
  /^(?:the )?(?:levain|leaven|starter|poolish|biga|sponge|pre-?ferment|soaker|tangzhong|(?:final |main |bread )?dough|filling|topping|glaze)$/i

/** A first line that is no amount of anything known: "100 % rye bread" is a title, "500 g bread flour" none. */
function isTitle(line: Line) {
  const plain = undecorated(line.text)
  if (plain.length > 120 || isStep(line)) return false
  return !(line.reads && findIngredient(splitLine(plain).ingredient))
}

/** Whether a line tells somebody to do something; a time alone says so only once there is something to do it with. */
function isStep({ text, reads }: Line, isEarly = false) {
  // enough to tell, however long the line
  const words = unlisted(text).slice(0, 400)
  const [first] = kindsIn(words)
  const isOrder = first?.start === 0 && wordsIn(words) >= 2 && /^[\p{Lu}\d]/u.test(words)
  const isNumbered = /^\s*(?:step\s*)?\(?\d{1,2}[.):]?\s/i.test(text) && wordsIn(words) >= 3
  const isTimed = !isEarly && wordsIn(words) >= 5 && durationsIn(words).length > 0
  return !reads && (isOrder || isNumbered || isTimed)
}

/** "Salt", "flour for dusting": a line without an amount among lines of a list. */
const isBare = (text: string, { last, next }: At) =>
  isUnmeasured(text) && (listMark(text) !== "" || wordsIn(text) <= 6) && (last !== "about" || next?.reads === true)

const wordsIn = (text: string) => text.match(/\p{L}+/gu)?.length ?? 0
