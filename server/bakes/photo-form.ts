import { z } from "zod"
import type { Stage } from "../dough/schedule.ts"
import { photoSubjects } from "../schema.ts"
import { ticked } from "../web/forms.ts"
import { type Reader, whenField } from "./forms.ts"

/** The stage that was running when the photo was taken, whichever that was. */
export const asItRan = "as it ran"

/** What is told of photos beside them. Without a kind, a photo shows what is to be seen in its stage. */
export const photoForm = (reader: Reader, stages: Stage[]) =>
  z.object({
    subject: z.enum(["", ...photoSubjects], "Choose what the photo shows.").default(""),
    stageKey: z
      .string()
      .refine((key) => ["", asItRan].includes(key) || isStage(key, stages), "This formula has no such stage.")
      .default(asItRan),
    forClass: ticked,
    cameraTime: ticked,
    takenAt: whenField(reader),
  })
export type PhotoValues = z.output<ReturnType<typeof photoForm>>

/** What a photo shows and when in the bake, told otherwise afterwards. */
export const photoChangeForm = (stages: Stage[]) =>
  z.object({
    subject: z.enum(photoSubjects, "Choose what the photo shows."),
    stageKey: z
      .string()
      .refine((key) => key === "" || isStage(key, stages), "This formula has no such stage.")
      .transform((key) => key || null),
  })

const isStage = (key: string, stages: Stage[]) => stages.some((stage) => stage.key === key)
