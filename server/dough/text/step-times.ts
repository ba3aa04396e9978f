import type { StageKind } from "../schedule.ts"
import { durationsIn, type SaidDuration } from "./durations.ts"
import type { Piece } from "./said.ts"
import { handsOnIn } from "./step-pieces.ts"

// Longer than any stage of bread; a slip is likelier. Our own limit.
const mostMin = 14 * 24 * 60

/**
 * How long a piece of a step takes, in minutes, with what is assumed and what is asked; 0 where it cannot be sure. `cue` is
 * what follows "until", without the word. Never throws.
 */
export function timeOf({ text, durations }: Piece, kind: StageKind) {
  const assumes: string[] = []
  const asks: string[] = []
  const cue = cueIn(text)
  const one = onlyOne(durations)
  if (one && one.highMin > mostMin) asks.push(`“${one.text}” is more than a fortnight; how long does it take?`)
  else if (one) {
    if (/least|minimum|more|good/.test(one.hedge))
      assumes.push(`“${one.hedge} ${one.text}” gives no longest time; it is taken as ${one.text}.`)
    else if (/most|up to|maximum/.test(one.hedge))
      assumes.push(`“${one.hedge} ${one.text}” gives no shortest time; it is taken as ${one.text}.`)
    if (/\bovernight\b/i.test(text)) assumes.push(`“overnight” is taken as ${one.text}.`)
  } else asks.push(questionFor(text, durations, cue, kind))
  const isSure = one && one.highMin <= mostMin
  const handsOn = durationsIn(handsOnIn(text).replace(/hands?[- ]on(?: time)?(?: for|:)?/gi, " "))[0]
  return {
    lowMin: isSure ? Math.round(one.lowMin) : 0,
    highMin: isSure ? Math.round(one.highMin) : 0,
    handsOnMin: handsOn && handsOn.highMin <= mostMin ? Math.round(handsOn.highMin) : 0,
    ...{ cue, assumes, asks },
  }
}

/** The one length there is; two that say the same, "1 hour (60 minutes)", are one. */
function onlyOne(durations: SaidDuration[]): SaidDuration | undefined {
  const [first, ...others] = durations
  return others.every(({ lowMin, highMin }) => lowMin === first!.lowMin && highMin === first!.highMin)
    ? first
    : undefined
}

function questionFor(text: string, durations: SaidDuration[], cue: string, kind: StageKind) {
  if (durations.length > 1) {
    const listed = new Intl.ListFormat("en-GB", { type: "conjunction" }).format(
      durations.map(({ text }) => text.trim()),
    )
    if (/\bor\b/i.test(text.slice(text.indexOf(durations[0]!.text)))) return `${listed} stand here: which is it?`
    const low = durations.reduce((sum, { lowMin }) => sum + lowMin, 0)
    const high = durations.reduce((sum, { highMin }) => sum + highMin, 0)
    const sum = low === high ? said(high) : `${said(low)} to ${said(high)}`
    return `${listed} stand here. How long is it altogether: ${sum}, if one follows the other?`
  }
  if (/\bovernight\b/i.test(text)) return "“overnight” is no length: from how many hours to how many?"
  if (/\d:\d\d/.test(text)) return "Times of day or of a watch stand here: how long does it take?"
  if (cue) return `It says “until ${cue}”, not how long. About how long is that?`
  const work = { bake: "How long does it bake?", cool: "How long does it cool?", rest: "How long does it rest?" }
  return work[kind as keyof typeof work] ?? "How long does it take?"
}

const said = (min: number) => {
  const [hours, rest] = [Math.floor(min / 60), Math.round(min % 60)]
  return [hours && `${hours} h`, (rest || !hours) && `${rest} min`].filter(Boolean).join(" ")
}

/** What follows "until" up to the next stop, without a time in it. */
function cueIn(text: string): string {
  const [, until = ""] =
    /\b(?:un)?till? (?:it(?:’s|'s| is| has)?|they are|the dough (?:is|has)|the loaf is)? ?([^.;,(!?]{3,160})/i.exec(
      text,
    ) ?? []
  return durationsIn(until).length ? "" : until.trim()
}
