import { z } from "zod"
import { maybeWords } from "../web/forms.ts"

const most = 1000
const something = "Write something first."

/** What is said under a thing of a bake: words, a question with or without any, or that a question is settled. */
export const commentForm = (stageKeys: string[]) =>
  z
    .object({
      about: z.string("Say what it is about.").default("bake"),
      says: z.enum(["says", "asks", "settles"], "Press one of the buttons.").default("says"),
      words: maybeWords(most),
      stageKey: z
        .string()
        .refine((key) => key === "" || stageKeys.includes(key), "This formula has no such stage.")
        .default(""),
    })
    .refine(({ says, words }) => says !== "says" || words !== "", { path: ["words"], error: something })

export const answerForm = z.object({ words: maybeWords(most).pipe(z.string().min(1, something)) })
