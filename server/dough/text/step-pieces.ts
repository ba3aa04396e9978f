import { stageKinds } from "../schedule.ts"
import { durationsIn, type SaidDuration } from "./durations.ts"
import { kindsIn, type SaidKind, tellingAt } from "./kinds.ts"
import { sentencesOf } from "./lines.ts"
import { mostLetters, type Piece, type SaidStep } from "./said.ts"

/**
 * A step in as many pieces as it has things to do with a time of their own; together they are its text with single
 * spaces. A kind in brackets in its name, "Levain ripens (rest)", is its kind, and then it is one piece. Never throws.
 */
export function piecesOf(step: SaidStep): Piece[] {
  const [, named = "", kind = ""] = /^(.*?) ?\(([a-z]+)\)$/.exec(step.name ?? "") ?? []
  const said = stageKinds.find((one) => one === kind)
  if (said) {
    const text = withoutHandsOn(step.text)
    return [
      {
        step: { ...step, name: named },
        text: step.text,
        kind: said,
        word: said,
        isSaid: true,
        durations: durationsIn(text),
      },
    ]
  }
  const pieces: Piece[] = []
  for (const sentence of sentencesOf(step.text).flatMap(shortened).flatMap(clausesOf)) {
    const next = pieceOf(step, sentence)
    const last = pieces.at(-1)
    if (last && belongs(next, last)) Object.assign(last, joined(last, next))
    else pieces.push(last ? next : { ...next, ...namedKind(step, next) })
  }
  const [first, ...others] = pieces
  if (!first) return []
  // what was said of the step as a whole is said once
  return [first, ...others.map((piece) => ({ ...piece, step: { text: piece.text, from: step.from } }))]
}

function pieceOf(step: SaidStep, text: string): Piece {
  const durations = durationsIn(withoutHandsOn(text))
  const kinds = kindsIn(text)
  const isHeat = kinds[0]?.kind === "heat" && !(durations.length && kinds.some(({ kind }) => kind !== "heat"))
  const night = text.search(/\bovernight\b/i)
  const telling = isHeat ? kinds[0] : tellingOf(kinds, durations[0] ?? (night < 0 ? undefined : { start: night }))
  return { step, text, kind: telling?.kind, word: telling?.word ?? "", isSaid: false, durations }
}

const tellingOf = (kinds: SaidKind[], duration: Pick<SaidDuration, "start"> | undefined) =>
  tellingAt(
    kinds.filter(({ kind }) => kind !== "heat"),
    duration?.start,
  )

/** A heading such as "Bulk fermentation" tells more than "leave it" does. */
function namedKind(step: SaidStep, piece: Piece): Partial<Piece> {
  const telling = tellingOf(kindsIn(step.name || step.section || ""), undefined)
  const isVague = !piece.kind || ["rest", "mix", "heat"].includes(piece.kind)
  return telling && isVague ? { kind: telling.kind, word: telling.word } : {}
}

const belongs = (next: Piece, last: Piece) =>
  (!next.kind || next.kind === last.kind) &&
  !(next.durations.length && last.durations.length) &&
  last.text.length + next.text.length < mostLetters

const joined = (last: Piece, next: Piece) => ({
  text: `${last.text} ${next.text}`,
  durations: last.durations.length ? last.durations : next.durations,
})

/** "knead 10 min, then let it rest 30 min": cut where each side has its own kind and its own time. */
function clausesOf(sentence: string): string[] {
  const durations = durationsIn(withoutHandsOn(sentence))
  const kinds = kindsIn(sentence)
  for (const [index, duration] of durations.slice(1).entries()) {
    const before = durations[index]!
    const [one, other] = [tellingOf(kinds, before), tellingOf(kinds, duration)]
    if (!one || !other || one.kind === other.kind || other.start < before.end) continue
    const between = sentence.slice(before.end, other.start)
    const cut = /^(.*?(?:,|;|\.|\band\b|\bthen\b|–|—|\+|→|\))) ?/su.exec(between)
    if (!cut?.[1]) continue
    const at = before.end + cut[0].length
    return [sentence.slice(0, at).trim(), ...clausesOf(sentence.slice(at).trim())]
  }
  return [sentence]
}

/** A sentence longer than a tip may be, in stretches that are not. */
function shortened(sentence: string): string[] {
  if (sentence.length <= mostLetters) return [sentence]
  const space = sentence.lastIndexOf(" ", mostLetters)
  const cut = space > 0 ? space : mostLetters
  return [sentence.slice(0, cut), ...shortened(sentence.slice(cut).trim())].filter(Boolean)
}

const handsOn = /,? ?\bhands?[- ]on(?: time)?(?: for|:)? [^,.;]+/gi

/** The hands-on time blanked out, so that it is not taken for how long the stage lasts. */
export const withoutHandsOn = (text: string) => text.replace(handsOn, (found) => " ".repeat(found.length))

/** What is said of hands-on time; "" where nothing is. */
export const handsOnIn = (text: string) => text.match(handsOn)?.join(" ") ?? ""
