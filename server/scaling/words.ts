import type { Say } from "../accounts/say.ts"
import type { Range } from "../dough/amounts.ts"
import type { Figures } from "../dough/formula/formula.ts"
import { baseAreaMm2, doughForPanG, shapedForTin, volumeMl } from "../dough/formula/pans.ts"
import { beforeLoss, starterNeeded, usualBakeLoss, type Wish } from "../dough/formula/scaling.ts"
import { showVolume } from "../dough/units.ts"

/** What that much dough makes, in short. */
export function makes({ pieces }: Figures, wish: Wish, say: Say): string[] {
  if (wish.by === "pan") return [`${wish.count} × ${say.mass(doughForPanG(wish.pan, wish.filling))}, one for each pan`]
  if (!pieces?.eachG) return []
  const { count, eachG, allowedG } = pieces
  const will = allowedG ? ` (${say.massRange(allowedG)} will do)` : ""
  const baked = wish.by === "baked pieces" ? `, ${say.mass(wish.bakedG)} each once baked` : ""
  return [`${count} × ${say.massRange(eachG)}${will}${baked}`]
}

/** How many times the formula that is, in short; nothing where it has no mass of its own. */
export function timesTheFormula(factor: number | undefined): string[] {
  if (factor === undefined) return []
  const times = Number(factor.toPrecision(3))
  return [times === 1 ? "the formula as it is" : `${times} × the formula`]
}

/** What the size takes for granted, each a sentence. */
export function takenForGranted(wish: Wish, figures: Figures, say: Say): string[] {
  switch (wish.by) {
    case "baked pieces": {
      const each = {
        low: beforeLoss(wish.bakedG, usualBakeLoss.low),
        high: beforeLoss(wish.bakedG, usualBakeLoss.high),
      }
      return [
        `Baking usually takes ${say.percentRange(usualBakeLoss)}, so a piece of ${say.mass(wish.bakedG)} weighs ${say.massRange(each)} as dough (Gisslen, Professional Baking). Your own oven's loss is surer.`,
      ]
    }
    case "pan": {
      const { low, high } = shapedForTin.full
      const doughG = (full: number) => doughForPanG(wish.pan, { ...wish.filling, full })
      return [
        `To the brim the pan holds ${showVolume(volumeMl(wish.pan))}; a gram of shaped dough is taken as ${wish.filling.mlPerG} ml. Half to three fifths full, as is usual for a tin, would be ${say.massRange({ low: doughG(low), high: doughG(high) })} (${shapedForTin.source}).`,
      ]
    }
    case "pan in place of another": {
      const size = wish.compare === "volume" ? volumeMl : baseAreaMm2
      const times = Number((size(wish.to) / size(wish.from)).toPrecision(3))
      return [
        wish.compare === "volume"
          ? `The new pan holds ${times} × as much: ${showVolume(volumeMl(wish.to))} instead of ${showVolume(volumeMl(wish.from))} to the brim.`
          : `The bottom of the new pan is ${times} × as large, so the dough lies as thick as before.`,
      ]
    }
    case "class":
      return aboutClass(wish, figures, say)
    default:
      return []
  }
}

function aboutClass({ people, loss }: Extract<Wish, { by: "class" }>, { dough }: Figures, say: Say) {
  if (!dough) return []
  const each = (share: number): Range => ({ low: (dough.low / people) * share, high: (dough.high / people) * share })
  return [
    `Each of the ${people} mixes ${say.massRange(each(1))}, of which ${say.massRange(each(1 - loss))} are left when ${say.percent(loss)} have stayed in bowls, in jars and on hands.`,
  ]
}

/** The ripe starter that has to be there, in masses as `shown`; null for a formula without. */
export function starterFor(figures: Figures, people: number | undefined, shown: (g: Range) => string): string | null {
  const all = starterNeeded(figures)
  if (!all) return "How much ripe starter it takes is not known: a line of it has no amount that can be read."
  if (all.high === 0) return null
  const each = people ? `, ${shown({ low: all.low / people, high: all.high / people })} for each` : ""
  return `Have ${shown(all)} of ripe starter ready${each}; keep some besides to feed on.`
}
