import { stageKinds } from "../schedule.ts"
import { kindsIn } from "./kinds.ts"
import { unlisted } from "./lines.ts"
import { mostLetters, mostOfName, type Piece, type ReadStep, type SaidStep } from "./said.ts"
import { piecesOf, withoutHandsOn } from "./step-pieces.ts"
import { temperatureOf } from "./step-temperatures.ts"
import { timeOf } from "./step-times.ts"

/**
 * Reads steps into stages, in their order. A step with several things to do, each with its own time, becomes several; what
 * names no work of its own (heating the oven, "Enjoy.") stays with the stage it belongs to. Every word of every step is in
 * the `name`, `cue` or `tip` of a stage. Never throws.
 */
export function readSteps(steps: SaidStep[]): ReadStep[] {
  return inPlace(keptTogether(steps.map(labelled).flatMap(piecesOf))).map(stageOf)
}

/** With the label that stands before a colon as its name: "Bulk (bulk): 4 h". */
function labelled(step: SaidStep): SaidStep {
  const { section = "", name = "" } = step
  const text = unlisted(step.text.replace(/\s+/g, " ").trim())
  const over = [section, repeats(name, text) ? "" : name].filter(Boolean).join(": ")
  const [, label = "", rest = ""] = withKind.exec(text) ?? /^(\p{L}[^:.!?;]{1,60}):\s+(\S.*)$/su.exec(text) ?? []
  if (!over && label && (label.endsWith(")") || label.split(" ").length <= 7))
    return { ...step, section: "", name: label, text: rest }
  if (over.length > 80) return { ...step, section: "", name: "", text: `${over}: ${text}` }
  return { ...step, section: "", name: over, text }
}

const withKind = new RegExp(`^(\\S.{0,${mostOfName}} \\((?:${stageKinds.join("|")})\\)):\\s+(.*)$`, "su")

/** A name that a page made of the first words says nothing more than they do. */
const repeats = (name: string, text: string) =>
  text.toLowerCase().startsWith(
    name
      .replace(/\s*(?:\.{2,}|…|[.!?:])$/, "")
      .trim()
      .toLowerCase(),
  )

/** Pieces that are nothing by themselves, with the piece before them; heating the oven, with the bake that follows. */
function keptTogether(pieces: Piece[]): Piece[] {
  const kept: Piece[] = []
  const heating: { piece: Piece; at: number }[] = []
  for (const piece of pieces) {
    const last = kept.at(-1)
    if (piece.kind === "heat") heating.push({ piece, at: kept.length })
    else if (last && isIdle(piece) && fits(last.text, piece.text))
      kept[kept.length - 1] = { ...last, text: `${last.text} ${piece.text}` }
    else kept.push(piece)
  }
  for (const { piece, at } of heating.toReversed()) {
    const next = kept.findIndex(({ kind }, place) => place >= at && kind === "bake")
    const place = next < 0 ? kept.findLastIndex(({ kind }) => kind === "bake") : next
    const bake = kept[place]
    if (bake && !bake.isSaid && fits(wholeOf(piece), bake.text))
      kept[place] = { ...bake, text: `${wholeOf(piece)} ${bake.text}` }
    else kept.splice(at, 0, { ...piece, kind: "bake" })
  }
  return kept
}

const isIdle = ({ kind, durations, step: { name, cue, tip } }: Piece) =>
  !kind && !durations.length && !name && !cue && !tip
const fits = (one: string, other: string) => one.length + other.length < mostLetters
const wholeOf = ({ text, step: { name, cue, tip } }: Piece) =>
  [name && `${name}:`, text, cue, tip].filter(Boolean).join(" ")

/** A first rise is bulk and one after shaping proof, whichever word was used for it. */
function inPlace(pieces: Piece[]): Piece[] {
  const rises = ({ kind }: Piece) => kind === "bulk" || kind === "proof"
  const shaped = pieces.findIndex(
    ({ text, kind }) => kind === "shape" || kindsIn(text).some((one) => one.kind === "shape"),
  )
  const first = pieces.findIndex(rises)
  return pieces.map((piece, at) => {
    if (!rises(piece) || piece.isSaid || /bulk|final|first|second|last/i.test(piece.word)) return piece
    return { ...piece, kind: (shaped < 0 ? at > first : at >= shaped) ? "proof" : "bulk" }
  })
}

function stageOf(piece: Piece): ReadStep {
  const { step, text, word } = piece
  const kind = piece.kind && piece.kind !== "heat" ? piece.kind : "rest"
  const { cue, ...time } = timeOf(piece, kind)
  const temperature = temperatureOf(text, kind)
  const driven = piece.isSaid ? isQuicker.test(text) : ["bulk", "proof", "retard"].includes(kind)
  const isOpen = driven && temperature.referenceC === undefined && !temperature.asks.length
  return {
    ...{ from: step.from, text, kind, ...time, drivenByTemperature: driven },
    ...(temperature.referenceC === undefined ? {} : { referenceC: temperature.referenceC }),
    name: (step.name || kind.charAt(0).toUpperCase() + kind.slice(1)).slice(0, mostOfName),
    because: piece.isSaid ? "written beside it" : word ? `“${word}”` : "nothing in the words tells",
    cue: step.cue ?? cue,
    tip: tipOf(piece),
    assumes: piece.isSaid ? [] : [...time.assumes, ...temperature.assumes],
    asks: [
      ...(piece.kind ? [] : ["What kind of stage is this?"]),
      ...time.asks,
      ...temperature.asks,
      ...(isOpen ? ["At what temperature of the dough are these times meant?"] : []),
    ],
  }
}

const isQuicker = /\bwarmer is quicker\b/i

/** The words of a step, unless they are all times and temperatures that the stage has anyway; and the tip below them. */
function tipOf({ isSaid, text, durations, step: { tip = "" } }: Piece) {
  const rest = durations.reduce((left, { text: time }) => left.replace(time, ""), withoutHandsOn(text))
  const isOnlyTime =
    isSaid && /^[\s,]*(?:no time yet)?[\s,]*(?:at -?[\d.]+ °[CF])?[\s,]*$/.test(rest.replace(isQuicker, ""))
  return [isOnlyTime ? "" : text, tip].filter(Boolean).join(" ")
}
