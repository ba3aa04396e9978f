import { z } from "zod"
import type { Pause } from "../schema.ts"
import { type Reader, whenField } from "./forms.ts"
import type { Mark } from "./queries.ts"
import type { When } from "./when.ts"

/** A stage's times as somebody gives them; null takes them back. */
export type Times = Pick<
  Mark,
  "startedAt" | "startedTyped" | "startedAboutMin" | "endedAt" | "endedTyped" | "endedAboutMin" | "pauses"
>

/** When a stage started, paused and ended, corrected by hand; all blank takes the mark back. One pause more than there is. */
export function markForm(reader: Reader, present?: Mark) {
  const pauses = present?.pauses ?? []
  const whens = {
    startedAt: whenField(reader, present && startedWhen(present)),
    endedAt: whenField(reader, present && endedWhen(present)),
    ...Object.fromEntries(
      [...pauses, undefined].flatMap((pause, index) => [
        [`pause${index}From`, whenField(reader, pause && exactly(pause.from))],
        [`pause${index}To`, whenField(reader, pause?.to ? exactly(pause.to) : null)],
      ]),
    ),
  }
  return z.object(whens as Record<keyof typeof whens, ReturnType<typeof whenField>>).transform((said, context) => {
    const refuse = (field: string, message: string) => {
      context.addIssue({ code: "custom", path: [field], message })
      return z.NEVER
    }
    const { startedAt, endedAt } = said
    if (!startedAt) return Object.values(said).some(Boolean) ? refuse("startedAt", "Give the start too.") : null
    if (endedAt && endedAt.at < startedAt.at) return refuse("endedAt", "The end is before the start.")
    const taken = readPauses(said, startedAt.at, endedAt?.at)
    return "field" in taken ? refuse(taken.field, taken.error) : timesIn(startedAt, endedAt, taken.pauses)
  })
}

type Said = Record<string, When | null | undefined>
type Taken = { pauses: Pause[] } | { field: string; error: string }

function readPauses(said: Said, startsAt: Date, endsAt: Date | undefined): Taken {
  const pauses: Pause[] = []
  let after = startsAt
  for (let index = 0; `pause${index}From` in said; index++) {
    const [fromField, toField] = [`pause${index}From`, `pause${index}To`] as const
    const [from, to] = [said[fromField]?.at, said[toField]?.at]
    if (!from && !to) continue
    if (!from) return { field: fromField, error: "Give the start of the pause too." }
    if (!to) return { field: toField, error: "Give the end of the pause too." }
    if (from < after)
      return { field: fromField, error: "A pause begins after the start and after the pause before it." }
    if (to < from) return { field: toField, error: "The end is before the start." }
    if (endsAt && to > endsAt) return { field: toField, error: "A pause ends before the stage does." }
    pauses.push({ from: from.toISOString(), to: to.toISOString() })
    after = to
  }
  return { pauses }
}

const timesIn = (start: When, end: When | null | undefined, pauses: Pause[]): Times => ({
  startedAt: start.at,
  startedTyped: start.typed,
  startedAboutMin: start.aboutMin,
  endedAt: end?.at ?? null,
  endedTyped: end?.typed ?? "",
  endedAboutMin: end?.aboutMin ?? null,
  pauses,
})

const startedWhen = ({ startedAt, startedAboutMin, startedTyped }: Mark): When => ({
  at: startedAt,
  aboutMin: startedAboutMin,
  typed: startedTyped,
})
const endedWhen = ({ endedAt, endedAboutMin, endedTyped }: Mark): When | null =>
  endedAt && { at: endedAt, aboutMin: endedAboutMin, typed: endedTyped }
const exactly = (iso: string): When => ({ at: new Date(iso), aboutMin: null, typed: "" })
