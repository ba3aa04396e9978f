import type { StageKind } from "../schedule.ts"
import { temperaturesIn } from "./temperatures.ts"

// What a dough, a room or a fridge can be; anything warmer is an oven. Our own limits.
const [coldestC, warmestC] = [-5, 50]

/**
 * The dough temperature that a stage's times are meant for, °C, as far as the words say it, with what is assumed and what
 * is asked. A range gives its middle. Oven temperatures are none, and stay in the words. Never throws.
 */
export function temperatureOf(text: string, kind: StageKind) {
  const { sure, asks } = temperaturesIn(text)
  const isTimed = ["rest", "bulk", "proof", "retard"].includes(kind)
  const [first, ...others] = isTimed ? sure.filter(({ lowC, highC }) => lowC >= coldestC && highC <= warmestC) : []
  if (!first) return { asks, assumes: [] }
  if (others.length)
    return { asks: [...asks, "Several temperatures stand here: at which of them are these times meant?"], assumes: [] }
  const referenceC = (first.lowC + first.highC) / 2
  return { referenceC, asks, assumes: first.lowC < first.highC ? [`Of “${first.text}” the middle is taken.`] : [] }
}
