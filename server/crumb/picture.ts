/** Grey pixels row by row, 0 black to 255 white, as sRGB luminance (what a decoder's greyscale gives); never changed here. */
export type Grey = { width: number; height: number; data: Uint8Array }

/** Pixels that are 1 (marked) or 0, row by row. */
export type Mask = { width: number; height: number; data: Uint8Array }

/** A place in shares of the picture's width and height: 0, 0 is the upper left corner and 1, 1 the lower right one. */
export type Spot = { x: number; y: number }

/** The crumb to measure: the corners of a polygon, in order, that does not cross itself. */
export type Area = readonly Spot[]
