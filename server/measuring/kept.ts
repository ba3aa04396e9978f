import type { Features, Reason, ScaledFeatures, Spot } from "../crumb/measure.ts"

/** A cell as it is kept: its centre and area in pixels of the photo, and whether the area's edge cuts it. */
export type KeptCell = [x: number, y: number, areaPx: number, cut: 0 | 1]

/** What is kept of a photo's measurement. */
export type KeptCrumb =
  | {
      kind: "measured"
      area: Spot[]
      /** of the photo that was measured */
      widthPx: number
      heightPx: number
      mmPerPx: number | null
      features: Features
      scaled: ScaledFeatures | null
      /** the visible cell share if the limit between cell and wall lay a little lower, and higher */
      shareRange: readonly [number, number]
      cautions: Reason[]
      cells: KeptCell[]
      /** the largest cells' outlines as one SVG path, in pixels of the photo, and how many they are */
      outlines: string
      outlined: number
      /** where in the photo the picture under even light lies, in pixels */
      even: { left: number; top: number; width: number; height: number }
    }
  | { kind: "cannot"; area: Spot[]; reasons: Reason[] }
  /** the measuring itself broke, as often as it was tried */
  | { kind: "broke" }
  /** the picture's file is not there or cannot be read */
  | { kind: "unreadable" }
