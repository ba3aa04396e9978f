import { axisWords } from "./axes.ts"
import { drawPlot } from "./drawing.ts"
import { numbersOf } from "./numbers.ts"
import type { Plot } from "./plot.ts"
import { inUnitsOf } from "./units.ts"

/** What a page shows of a plot: the drawing and the numbers, both from the very same values. Every view has it as `it.shownPlot`. */
export function shownPlot(kept: Plot, unit: "C" | "F" = "C", step?: number) {
  const plot = inUnitsOf(kept, unit)
  return {
    plot,
    drawing: drawPlot(plot, step),
    numbers: numbersOf(plot),
    xWords: axisWords(plot.x),
    yWords: axisWords(plot.y),
  }
}
