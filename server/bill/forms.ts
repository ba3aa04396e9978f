import { z } from "zod"
import { readCount, readPercent } from "../scaling/typed.ts"
import { maybeWords, readBy, readForm, type Typed, words } from "../web/forms.ts"

/** What a shopping list is asked for: how many people, how many pieces each bakes, and the share that is lost. */
export type Asked = { people: number; pieces: number | null; loss: number }

/** For oneself the formula's own losses are all there are; a class spills some more. Our own judgement. */
export const usualLoss = { me: "0", class: "3" }

/** A shopping list as it stands in the address; a formula that makes no pieces asks for none. */
export const readAsked = (typed: Typed, hasPieces: boolean) =>
  readForm(
    z.object({
      people: readBy(readCount("people")),
      pieces: hasPieces ? readBy(readCount("pieces")) : z.unknown().transform(() => null),
      loss: readBy(readPercent(0, 40)),
    }),
    typed,
  )

/** Somebody takes a thing of the list: all of it, or so much in their own words. */
export const bringingForm = z.object({ thing: words("Choose something on the list."), amount: maybeWords(80) })
