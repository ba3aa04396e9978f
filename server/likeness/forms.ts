import { z } from "zod"
import { looks } from "../schema.ts"

const look = z.enum(looks, "Choose which look it shows.")

export const wishForm = (stageKeys: string[]) =>
  z.object({
    stageKey: z.string("Choose a stage.").refine((key) => stageKeys.includes(key), "This formula has no such stage."),
    look,
  })

/** `look` is the one that the student read when they answered. */
export const answerForm = z.object({ answer: z.enum(["yes", "no"], "Say yes or no."), look })
