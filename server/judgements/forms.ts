import { z } from "zod"
import { maybeWords } from "../web/forms.ts"
import { otherExplanations } from "./explanations.ts"
import { callWords } from "./standing.ts"

/** What is not chosen comes as nothing; what nobody offered is refused. */
export const judgementForm = z.object({
  call: z.enum(Object.keys(callWords) as (keyof typeof callWords)[], "Choose one of these."),
  explanation: z
    .enum(["", ...otherExplanations.map(({ key }) => key)], "Choose one of the list, or nothing.")
    .default(""),
  words: maybeWords(),
})
