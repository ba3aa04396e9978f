import type { Features } from "./features.ts"
import type { Quality } from "./quality.ts"

/** Why a crumb could not be measured, or what to bear in mind about its numbers. */
export type Reason = { code: Code; says: string }
export type Code = keyof typeof words

/** In plain words, for the person who took the photo. */
const words = {
  "small-picture": "The picture has fewer than 1200 pixels on its long side: fine cells cannot be told apart.",
  "small-area": "The marked area is too small to hold enough cells. Mark more of the crumb.",
  "too-dark": "Much of the area is black, and what is black has no shape. Take the photo with more light.",
  "too-bright": "Much of the area is plain white, and what is white has no shape. Take the photo with less light.",
  "no-contrast":
    "Cells and walls are nearly the same grey. Light from the side, not straight from the front, shows cells.",
  "low-contrast": "Cells and walls differ little in grey, so the edge of a cell is a matter of opinion.",
  unsteady: "A slightly different grey level as the limit between cell and wall would change the share of cells much.",
  blurred: "The picture is not sharp: small cells are lost, and the rest come out larger.",
  "one-sided-light":
    "The light falls from one side: shade may be taken for cells, and cells for lying across the light.",
  crust: "A dark band runs along the edge of the area: crust, shade or the table. Draw the area in.",
  "not-one-crumb":
    "The light parts do not hang together as the walls of a crumb do. Crust or table may lie inside the area, or it is not a cut crumb.",
  "no-cells": "There are too few cells in the area to speak of a crumb.",
  "not-cells": "The dark shapes in the area are strokes or rags, not cells.",
  coarse: "At this scale cells smaller than 0.1 mm² are below what the picture can show.",
}

export const reason = (code: Code): Reason => ({ code, says: words[code] })

type Rule = { code: Code; when: (quality: Quality, features: Features) => boolean }

// All limits are our own judgement, set on drawn crumbs of known truth, on drawn loaves and on open pictures of other
// things, unless said otherwise.
const refusals: Rule[] = [
  { code: "too-dark", when: ({ blackShare }) => blackShare > 0.5 },
  { code: "too-bright", when: ({ whiteShare }) => whiteShare > 0.5 },
  { code: "no-contrast", when: ({ contrast }) => contrast < 15 },
  { code: "unsteady", when: ({ shareLess, shareMore }) => Math.max(shareLess, shareMore) > 0.1 },
  // a blur that loses a quarter of fine cells
  { code: "blurred", when: ({ rimPx }) => rimPx > 6 },
  // drawn crumbs 1.00, with crust in the area 0.3–0.9, photos of other things 0.2–0.9
  { code: "not-one-crumb", when: ({ oneNet }) => oneNet < 0.9 },
  { code: "no-cells", when: (_, { wholeCells, visibleCellShare }) => wholeCells < 30 || visibleCellShare < 0.03 },
  // drawn crumbs have 0.6 and more of circularity and 0.34 of fullness; text 0.4 and 0.2, noise 0.2 and 0.25
  { code: "not-cells", when: ({ fullness }, { circularity }) => fullness < 0.22 || (circularity ?? 0) < 0.47 },
]
const cautions: Rule[] = [
  { code: "too-dark", when: ({ blackShare }) => blackShare > 0.2 },
  // white walls hide shallow cells
  { code: "too-bright", when: ({ whiteShare }) => whiteShare > 0.02 },
  { code: "low-contrast", when: ({ contrast }) => contrast < 35 },
  // the note this method comes from found 0.014 on good pictures and proposed 0.03; drawn crumbs measured rightly reach 0.04
  { code: "unsteady", when: ({ shareLess, shareMore }) => Math.max(shareLess, shareMore) > 0.05 },
  { code: "blurred", when: ({ rimPx }) => rimPx > 4 },
  {
    code: "one-sided-light",
    // under a low lamp cells run together along the shade: 0.6 to 0.8 of one direction on drawn loaves, 0.05 without
    when: ({ oneSided }, { lieStrength = 0, axisRatio = 1 }) =>
      oneSided > 0.8 || (lieStrength > 0.7 && axisRatio > 1.6),
  },
  { code: "crust", when: ({ darkEdgeShare }) => darkEdgeShare > 0.12 },
]

export const refuse = (quality: Quality, features: Features) => matching(refusals, quality, features)
export const caution = (quality: Quality, features: Features) => matching(cautions, quality, features)

const matching = (rules: Rule[], quality: Quality, features: Features) =>
  rules.filter(({ when }) => when(quality, features)).map(({ code }) => reason(code))
