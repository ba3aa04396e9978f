import { z } from "zod"
import { maybeWords } from "../web/forms.ts"

const ids = z.preprocess(
  (given) => [given ?? []].flat().flatMap((id) => (/^[1-9]\d{0,8}$/.test(String(id)) ? [Number(id)] : [])),
  z.array(z.number()),
)

/** Whom to remind: those ticked, the one whose own button was pressed, or all who are due; and a sentence to them. */
export const reminderForm = z.object({
  userId: ids,
  only: ids,
  all: z.preprocess((given) => given === "yes", z.boolean()),
  words: maybeWords(300),
})
