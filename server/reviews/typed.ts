import { z } from "zod"
import { type Form, maybeWords, readForm } from "../web/forms.ts"
import type { Pair, ReviewContent } from "./content.ts"

/** What may be chosen: the bakes that are shared, with their photos for the class; the plots; the students. */
export type Choices = {
  bakes: { id: number; photos: { id: string }[] }[]
  plots: { key: string }[]
  students: { userId: number }[]
}
/** A draft as it was sent, with what its form knows of the draft it began from. */
export type Sent = {
  draft: ReviewContent
  form: Form
  good: boolean
  formId: string
  basedOn: string
  over: string
  whatChanged: string
}

const most = { title: 120, words: 20_000, nextTime: 4_000, why: 1_000, student: 2_000, whatChanged: 500 }
const shape = z.object({
  title: maybeWords(most.title),
  words: maybeWords(most.words),
  nextTime: maybeWords(most.nextTime),
  whatChanged: maybeWords(most.whatChanged),
})

/** Reads the form of a review. A draft may be as unfinished as it likes; only what is too long to keep is refused. */
export function readDraft(body: unknown, choices: Choices): Sent {
  const fields = new Map(Object.entries((body ?? {}) as Record<string, unknown>))
  const text = (name: string) => String([fields.get(name) ?? ""].flat().at(-1))
  const on = (name: string) => text(name) === "on"
  const single = {
    title: text("title"),
    words: text("words"),
    nextTime: text("nextTime"),
    whatChanged: text("whatChanged"),
  }
  const { form } = readForm(shape, single)

  const bakes = moved(chosenBakes(), text("move"))
  const pairs = pairsIn()
  const forStudents = choices.students
    .map(({ userId }) => ({ userId, words: text(`students.${userId}`).trim() }))
    .filter(({ words }) => words)
  const errors = { ...form.errors, ...tooLong(pairs, forStudents) }
  const draft = {
    ...{ title: single.title.trim(), words: single.words, nextTime: single.nextTime.trim() },
    ...{ showVerdicts: on("showVerdicts"), showCauses: on("showCauses"), bakes, pairs, forStudents },
    plots: choices.plots.map(({ key }) => key).filter((key) => on(`plots.${key}`)),
  }
  const known = { formId: text("formId").slice(0, 40), basedOn: text("basedOn"), over: text("over") }
  return {
    draft,
    form: { typed: single, errors },
    good: Object.keys(errors).length === 0,
    whatChanged: single.whatChanged.trim(),
    ...known,
  }

  function chosenBakes() {
    return rowsOf(fields, "bakes").flatMap((row) => {
      const bake = choices.bakes.find(({ id }) => String(id) === text(`bakes.${row}.id`))
      if (!bake || !on(`bakes.${row}.show`)) return []
      return [{ id: bake.id, photos: bake.photos.map(({ id }) => id).filter((id) => on(`photos.${id}`)) }]
    })
  }

  function pairsIn(): Pair[] {
    const bakeIn = (name: string) => choices.bakes.find(({ id }) => String(id) === text(name))?.id ?? null
    return rowsOf(fields, "pairs")
      .map((row) => ({
        ...{ left: bakeIn(`pairs.${row}.left`), right: bakeIn(`pairs.${row}.right`) },
        why: text(`pairs.${row}.why`).trim(),
      }))
      .filter(({ left, right, why }) => left !== null || right !== null || why !== "")
  }
}

function tooLong(pairs: Pair[], forStudents: ReviewContent["forStudents"]) {
  const message = (length: number) => `Keep it under ${length} characters.`
  return Object.fromEntries([
    ...pairs.flatMap(({ why }, row) => (why.length > most.why ? [[`pairs.${row}.why`, message(most.why)]] : [])),
    ...forStudents.flatMap(({ userId, words }) =>
      words.length > most.student ? [[`students.${userId}`, message(most.student)]] : [],
    ),
  ])
}

/** The numbers of rows such as `pairs.2.why`, in their order. */
function rowsOf(fields: Map<string, unknown>, name: string): number[] {
  const numbers = [...fields.keys()].flatMap((field) => {
    const row = new RegExp(`^${name}\\.(\\d{1,3})\\.`).exec(field)
    return row ? [Number(row[1])] : []
  })
  return [...new Set(numbers)].sort((a, b) => a - b)
}

/** With the bake of "earlier 12" or "later 12" one place from where it was. */
function moved<Chosen extends { id: number }>(bakes: Chosen[], move: string): Chosen[] {
  const [way, id] = move.split(" ")
  const from = bakes.findIndex((bake) => String(bake.id) === id)
  const to = from + (way === "earlier" ? -1 : 1)
  if (from < 0 || !bakes[to] || (way !== "earlier" && way !== "later")) return bakes
  return bakes.with(from, bakes[to]!).with(to, bakes[from]!)
}

/** The form of a draft by field name, as views look typed values up; one empty pair at the end to write into. */
export function typedOf(draft: ReviewContent, whatChanged = ""): Form["typed"] {
  const pairs = withSparePair(draft.pairs).flatMap(({ left, right, why }, row) => [
    [`pairs.${row}.left`, left ?? ""],
    [`pairs.${row}.right`, right ?? ""],
    [`pairs.${row}.why`, why],
  ])
  const students = draft.forStudents.map(({ userId, words }) => [`students.${userId}`, words])
  const { title, words, nextTime } = draft
  return { title, words, nextTime, whatChanged, ...Object.fromEntries([...pairs, ...students]) }
}

export const withSparePair = (pairs: Pair[]): Pair[] => [...pairs, { left: null, right: null, why: "" }]

/** What keeps a draft from being published, each by the field it is said at. `first`: nothing has been published before. */
export function problemsOf(draft: ReviewContent, { first, whatChanged }: { first: boolean; whatChanged: string }) {
  const { title, words, bakes, plots, nextTime } = draft
  const problems: [string, string][] = []
  if (!title) problems.push(["title", "Give the review a title."])
  if (!words.trim() && !nextTime && !bakes.length && !plots.length && !draft.pairs.length)
    problems.push(["words", "Say something, or choose a bake or a plot."])
  for (const [row, { left, right, why }] of draft.pairs.entries()) {
    if (left === null) problems.push([`pairs.${row}.left`, "Choose the bake on this side."])
    if (right === null) problems.push([`pairs.${row}.right`, "Choose the bake on this side."])
    else if (left === right) problems.push([`pairs.${row}.right`, "Choose another bake than on the other side."])
    if (!why) problems.push([`pairs.${row}.why`, "Say in a sentence why these two."])
  }
  if (!first && !whatChanged) problems.push(["whatChanged", "Say what is changed, for those who have read it already."])
  return Object.fromEntries(problems)
}
