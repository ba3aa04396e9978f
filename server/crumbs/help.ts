import type { Reason } from "../crumb/measure.ts"

/** What would help, where the reason itself does not say it. */
const helps: Partial<Record<Reason["code"], string>> = {
  "small-picture": "Send the photo itself, not a copy that a messenger made smaller.",
  "low-contrast": "Light from a window at the side, with the ceiling lamp off, makes cells darker.",
  unsteady: "Light from the side opposite, or a photo without flash, may show the walls better.",
  blurred:
    "Hold the phone still against something, tap on the crumb so that it is sharp, and go no nearer than a hand’s width.",
  "one-sided-light": "A sheet of white paper on the side opposite the lamp lightens the shade.",
  "not-one-crumb": "Mark the crumb only, a finger’s width inside the crust.",
  "no-cells": "Go nearer, so that the slice fills the picture, and mark more of it.",
  "not-cells": "Photograph the cut face straight from above.",
  coarse: "Go nearer, so that the slice fills the picture.",
}

/** A reason in full: what is the matter, and what would help. */
export const inFull = ({ code, says }: Reason) => [says, helps[code]].filter(Boolean).join(" ")
