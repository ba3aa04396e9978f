import type { Say } from "../accounts/say.ts"
import type { Correction } from "../bakes/corrections.ts"
import type { Bake, Mark } from "../bakes/queries.ts"
import { writeWhen } from "../bakes/when.ts"
import type { ChangeKind } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import type { Form } from "../web/forms.ts"
import { type Reading, readAmount, restsOn } from "./amounts.ts"
import { alone, type Change } from "./as-baked.ts"
import { choicesIn, namesIn } from "./choices.ts"
import { readingOf } from "./forms.ts"
import { changeThen } from "./queries.ts"
import { movedIn } from "./totals.ts"
import { changeIn } from "./words.ts"

type Seen = { bake: Bake; marks: Mark[]; corrections: Correction[]; viewer: Viewer; say: Say; writes: boolean }

/** What the bench says of what was done otherwise, and what its forms choose from. */
export function benchChanges({ bake, marks, corrections, viewer, say, writes }: Seen) {
  const groups = choicesIn(bake.asWritten, bake.ownIngredients)
  const names = namesIn(groups)
  const isMarked = (key: string | null) => marks.some(({ stageKey }) => stageKey === key)
  const reading = (name: string) => readingOf(name, { bake, reader: viewer })
  const told = (change: Change) => ({
    change,
    words: changeIn(change, say),
    rests: restsIn(change, reading),
    done: change.kind === "skipped" && isMarked(change.stageKey),
    was: corrections
      .filter(({ changeId }) => changeId === change.id)
      .map(({ was, by, madeAt }) => {
        const then = alone(bake.asWritten, bake.ownIngredients, changeThen(change, was!))
        return { by, madeAt, words: changeIn(then, say) }
      })
      .filter(({ words }, index, all) => words !== (all[index + 1]?.words ?? changeIn(change, say))),
  })
  return {
    list: bake.changes.map(told),
    takenBack: writes ? bake.takenBack.map(told) : [],
    totals: bake.changes.length ? movedIn(bake, say, viewer.massUnit) : null,
    groups,
    names,
    skippable: bake.content.stages.filter(({ key }) => !isMarked(key) && !bake.skipped.includes(key)),
    typedOf: (change: Change) => typedIn(change, names, say),
    asked: (form: Form) =>
      askedIn(form, (name, of) => ({
        ...reading(name),
        present: groups.flatMap(({ choices }) => choices).find(({ value }) => value === of)?.amount,
      })),
  }
}

const restsIn = ({ old, outQuantity, outG, instead, quantity, massG }: Change, reading: (name: string) => Reading) => [
  ...restsOn({ quantity: outQuantity, g: outG }, reading(old)),
  ...restsOn({ quantity, g: massG }, reading(instead)),
]

/** A change as it stood in its form. */
function typedIn(change: Change, names: string[], { zone, clock }: Say): Record<string, string> {
  const { partKey, ingredient, outQuantity, instead, quantity, doneAt, doneAboutMin, stageKey, words } = change
  const what = names.includes(instead) ? instead : ""
  const at = doneAt ? writeWhen({ at: doneAt, aboutMin: doneAboutMin }, zone, clock) : ""
  return {
    ...{ of: `${partKey}/${ingredient}`, outQuantity, quantity, at, words, into: partKey, stageKey: stageKey ?? "" },
    ...(change.kind === "added" ? { what, instead: what ? "" : instead } : { instead }),
  }
}

/** The wordings to choose from for an amount that a refused form asked about. */
function askedIn({ typed, errors }: Form, reading: (name: string, of?: string) => Reading) {
  const text = (field: string) => String(typed[field] ?? "")
  const choices = (field: string, about: Reading) => {
    const read = errors[field] ? readAmount(text(field), "", about) : undefined
    return read && "question" in read ? read.choices : []
  }
  const old = text("of").split("/").slice(1).join("/")
  return {
    outQuantity: choices("outQuantity", reading(old, text("of"))),
    quantity: choices("quantity", reading(text("what") || text("instead"))),
  }
}

/** The kinds of change, in the words of their buttons. */
export const changeWords: Record<ChangeKind, { offer: string; keep: string }> = {
  "left-out": { offer: "Left something out", keep: "Keep what was left out" },
  swapped: { offer: "Swapped something", keep: "Keep the swap" },
  added: { offer: "Added flour or water", keep: "Keep what was added" },
  skipped: { offer: "Skipped a stage", keep: "Keep that it was skipped" },
  oven: { offer: "Other oven", keep: "Keep the oven" },
  other: { offer: "Something else", keep: "Keep this" },
}
