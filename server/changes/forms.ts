import { z } from "zod"
import { type Reader, whenField } from "../bakes/forms.ts"
import { stageKeyAt } from "../bakes/progress.ts"
import type { Bake, Mark } from "../bakes/queries.ts"
import { applyChanges } from "../dough/formula/changes.ts"
import { showMass, showRange } from "../dough/units.ts"
import type { ChangeKind } from "../schema.ts"
import { maybeWords } from "../web/forms.ts"
import { type Asked, type Reading, readAmount } from "./amounts.ts"
import { inCore } from "./as-baked.ts"
import { type Choice, choicesIn } from "./choices.ts"
import type { KeptChange, Said } from "./queries.ts"

/** The bake that a form is about, and the change that it corrects. */
type Asking = { bake: Bake; marks: Mark[]; reader: Reader; present?: KeptChange }
type Refuse = (field: string, message: string) => void

/** What a form of that kind says. */
export const changeForm = (kind: ChangeKind, asking: Asking) =>
  z
    .object({
      ...{ of: maybeWords(300), what: chosenWords, instead: maybeWords(200), into: maybeWords(60) },
      ...{ outQuantity: maybeWords(120), quantity: maybeWords(120), takeOut: maybeWords(120), take: maybeWords(120) },
      ...{ stageKey: maybeWords(60), words: maybeWords(500), at: whenField(asking.reader, doneWhen(asking.present)) },
    })
    .transform((typed, context): Said => {
      const refuse: Refuse = (field, message) => context.addIssue({ code: "custom", path: [field], message })
      return { ...nothing, ...read[kind](typed, asking, refuse) }
    })

/** Nothing chosen is not the same as "something else", which is "". */
const chosenWords = z.string().trim().max(200, "Keep it under 200 characters.").optional()

type Typed = Record<
  "of" | "instead" | "into" | "outQuantity" | "quantity" | "takeOut" | "take" | "stageKey" | "words",
  string
> & { what?: string | undefined; at: { at: Date; typed: string; aboutMin: number | null } | null }

const nothing = {
  ...{ partKey: "", ingredient: "", outQuantity: "", outG: null, instead: "", quantity: "", massG: null },
  ...{ doneAt: null, doneTyped: "", doneAboutMin: null, stageKey: null, words: "" },
} satisfies Said

const read: Record<ChangeKind, (typed: Typed, asking: Asking, refuse: Refuse) => Partial<Said>> = {
  "left-out": (typed, asking, refuse) => {
    const choice = chosen(typed, asking)
    if (!choice) return refused(refuse, "of", "Choose what was left out.")
    return fitting("left-out", takenOut(typed, choice, asking, refuse), asking, refuse)
  },
  swapped: (typed, asking, refuse) => {
    const choice = chosen(typed, asking)
    if (!choice) return refused(refuse, "of", "Choose what was swapped.")
    if (!typed.instead) return refused(refuse, "instead", "Say what came instead.")
    const out = takenOut(typed, choice, asking, refuse)
    const came = broughtIn(typed, typed.instead, asking, refuse)
    return fitting("swapped", { ...out, ...came }, asking, refuse)
  },
  added: (typed, asking, refuse) => {
    const { bake, marks, reader, present } = asking
    const instead = typed.what || typed.instead
    if (!instead) return refused(refuse, typed.what === undefined ? "what" : "instead", "Say what was added.")
    if (!typed.quantity) return refused(refuse, "quantity", "Say how much, in words if nobody weighed it.")
    if (typed.into && !bake.asWritten.parts.some(({ key }) => key === typed.into))
      return refused(refuse, "into", "This formula has no such part.")
    const when = typed.at ?? doneWhen(present) ?? { at: reader.now, typed: "", aboutMin: null }
    return {
      ...broughtIn(typed, instead, asking, refuse),
      partKey: typed.into,
      ...{ doneAt: when.at, doneTyped: when.typed, doneAboutMin: when.aboutMin },
      stageKey: stageKeyAt(marks, when.at) ?? null,
    }
  },
  skipped: ({ stageKey }, { bake, marks }, refuse) => {
    const stage = bake.content.stages.find(({ key }) => key === stageKey)
    if (!stage) return refused(refuse, "stageKey", "Choose the stage that was skipped.")
    if (marks.some((mark) => mark.stageKey === stageKey))
      return refused(refuse, "stageKey", `${stage.name} has times; take those back below first.`)
    return { stageKey }
  },
  oven: ({ words }, _asking, refuse) => (words ? { words } : refused(refuse, "words", "Say which oven, and how.")),
  other: ({ words }, _asking, refuse) => (words ? { words } : refused(refuse, "words", "Say what was different.")),
}

function refused(refuse: Refuse, field: string, message: string) {
  refuse(field, message)
  return {}
}

const chosen = ({ of }: Typed, { bake }: Asking): Choice | undefined =>
  choicesIn(bake.asWritten, bake.ownIngredients)
    .flatMap(({ choices }) => choices)
    .find(({ value }) => value === of)

function takenOut(typed: Typed, choice: Choice, asking: Asking, refuse: Refuse) {
  const { name, amount: present, partKey, ingredient } = choice
  const place = { partKey, ingredient }
  const kept = asking.present
  if (kept && !typed.takeOut && sameAs(kept, { ...place, outQuantity: typed.outQuantity }))
    return { ...place, ...outOf(kept) }
  const amount = readAmount(typed.outQuantity, typed.takeOut, { ...readingOf(name, asking), present })
  if ("question" in amount) return { ...place, ...refused(refuse, "outQuantity", inWords(amount)) }
  return { ...place, outQuantity: amount.quantity, outG: amount.g }
}

function broughtIn(typed: Typed, instead: string, asking: Asking, refuse: Refuse) {
  const kept = asking.present
  if (kept && !typed.take && sameAs(kept, { instead, quantity: typed.quantity })) return { instead, ...inOf(kept) }
  const amount = readAmount(typed.quantity, typed.take, readingOf(instead, asking))
  if ("question" in amount) return refused(refuse, "quantity", inWords(amount))
  return { instead, quantity: amount.quantity, massG: amount.g }
}

// what stands as it stood is not asked about again
const sameAs = (kept: KeptChange, said: Partial<KeptChange>) =>
  Object.entries(said).every(([field, value]) => kept[field as keyof KeptChange] === value)
const outOf = ({ outQuantity, outG }: KeptChange) => ({ outQuantity, outG })
const inOf = ({ quantity, massG }: KeptChange) => ({ quantity, massG })

/** What the amounts of a bake's changes are read with. */
export const readingOf = (
  name: string,
  { bake, reader }: Pick<Asking, "bake"> & { reader: Pick<Reader, "massUnit"> },
): Reading => ({
  ...{ name, measures: bake.content.measures, own: bake.ownIngredients, massUnit: reader.massUnit },
})

/** A question with the wordings that would answer it, for those who have no buttons for them. */
const inWords = ({ question, choices }: Asked) =>
  choices.length ? `${question} Write ${choices.map(({ readAs }) => `“${readAs}”`).join(" or ")}.` : question

/** No more comes out than there is, with all that came out before. */
function fitting(kind: ChangeKind, said: Partial<Said>, { bake, reader, present }: Asking, refuse: Refuse) {
  const before = bake.changes.filter(({ id }) => id !== present?.id)
  const candidate = { ...nothing, ...said, kind } as KeptChange
  const known = { measures: bake.content.measures, own: bake.ownIngredients }
  const { effects } = applyChanges(bake.asWritten, [...before, candidate].map(inCore), known)
  const { atMost } = effects.at(-1)!
  if (!atMost) return said
  const there = showRange(atMost, (g) => showMass(g, reader.massUnit))
  return refused(refuse, "outQuantity", `There is only ${there} of it.`)
}

const doneWhen = (present?: KeptChange) =>
  present?.doneAt ? { at: present.doneAt, typed: present.doneTyped, aboutMin: present.doneAboutMin } : null
