import { z } from "zod"
import { isCue } from "../dough/verdict/cues.ts"
import { vessels } from "../schema.ts"

/** What was seen, ticked whole: a cue that is not ticked was not seen. One that comes twice counts once. */
export const cuesForm = z.object({
  vessel: z.enum(vessels, "Choose one of these, or leave it open.").default(""),
  cue: z
    .preprocess((ticked) => [ticked ?? []].flat(), z.array(z.string()))
    .refine(
      (keys) => keys.every(isCue),
      "Something was ticked that is not among what can be seen here. Tick anew what you saw.",
    )
    .transform((keys) => [...new Set(keys)]),
})
