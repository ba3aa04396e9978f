/**
 * How a sheet is brought onto one page: its height is reckoned by counting lines, and the first step of a ladder that fits is
 * taken: smaller type, shorter cues, lower boxes. A line never vanishes; only cues are cut.
 */

/** What both A4 and Letter have inside 10 mm of margin, mm: A4 is the narrower, Letter the shorter; and a little to spare. */
export const page = { widthMm: 190, heightMm: 256 } as const

/** One step: the size of type, in points, the most letters of a cue, and the least height of a box to write into, mm. */
export type Step = { pt: number; cue: number; boxMm: number }

/** From roomy to dense: type gives way before words do. 7.5 pt is the least that is still read at arm's length; our own judgement. */
const ladder: Step[] = [
  { pt: 11, cue: 600, boxMm: 18 },
  { pt: 11, cue: 600, boxMm: 14 },
  { pt: 10, cue: 600, boxMm: 13 },
  { pt: 9, cue: 600, boxMm: 12 },
  { pt: 8.5, cue: 600, boxMm: 12 },
  { pt: 8, cue: 600, boxMm: 11 },
  { pt: 8, cue: 200, boxMm: 10 },
  { pt: 8, cue: 110, boxMm: 10 },
  { pt: 7.5, cue: 110, boxMm: 9 },
  { pt: 7.5, cue: 60, boxMm: 8 },
  { pt: 7.5, cue: 30, boxMm: 7 },
  { pt: 7.5, cue: 0, boxMm: 7 },
]

/** The first step at which a sheet is no higher than the page, and the densest, with a warning, where none is. */
export function stepFor(heightMm: (step: Step) => number): Step & { overflows: boolean } {
  const fits = ladder.find((step) => heightMm(step) <= page.heightMm)
  return { ...(fits ?? ladder.at(-1)!), overflows: !fits }
}

// Points to millimetres, line spacing as in static/paper.css, and a letter's mean width in the widest of usual sans-serifs.
const mmPerPt = 25.4 / 72
const spacing = 1.25
const letterEm = 0.5
/** Bold letters are wider by about this much. */
export const bold = 1.14
/** What a line loses at its end, where a word does not fit. */
const ragged = 1.06

export const lineMm = (pt: number) => pt * mmPerPt * spacing

/** How many lines a text takes in a column of that width. */
export function linesIn(text: string, widthMm: number, pt: number): number {
  const perLine = Math.max(1, Math.floor(widthMm / (pt * mmPerPt * letterEm)))
  return text.length <= perLine ? 1 : Math.ceil((text.length * ragged) / perLine)
}

/** How high a row of cells is, each a text and the width of its column; without a text it takes one line. */
export function rowMm(cells: [text: string, widthMm: number][], pt: number, aroundMm = 0.8): number {
  return Math.max(...cells.map(([text, widthMm]) => linesIn(text, widthMm, pt))) * lineMm(pt) + aroundMm
}

/** How high short sentences are in columns that share the page. */
export function columnsMm(sentences: string[], pt: number): number {
  const columns = columnsAt(pt)
  const widthMm = page.widthMm / columns - 9
  const lines = sentences.map((words) => linesIn(words, widthMm, pt))
  const all = lines.reduce((sum, one) => sum + one, 0)
  return sentences.length ? (Math.ceil(all / columns) + 1) * lineMm(pt) + 3 : 0
}

/** As in static/paper.css: small type leaves room for a third. */
const columnsAt = (pt: number) => (pt < 9 ? 3 : 2)

/** At most so many letters of a text, ending at a word and with a sign that more was there; "" for none. */
export function cut(text: string, most: number): string {
  if (text.length <= most) return text
  if (most < 2) return ""
  const room = text.slice(0, most - 1)
  const word = room.lastIndexOf(" ")
  return `${(word > most / 2 ? room.slice(0, word) : room).replace(/[\s,;:.·]+$/, "")}…`
}

/** The class of a sheet's type in static/paper.css: "pt-11", "pt-7-5". */
export const typeClass = ({ pt }: Pick<Step, "pt">) => `pt-${String(pt).replace(".", "-")}`
