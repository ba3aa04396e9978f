import type { Range, Share } from "../amounts.ts"
import { asInstant } from "../fermentation/bakers-yeast.ts"
import type { Ratio } from "../fermentation/sourdough-rise.ts"
import type { Figures, LineFigures, PartFigures } from "../formula/formula.ts"
import { yeastOf } from "../formula/leaven.ts"
import { nameOf, type Place, placeParts, type Stays } from "../formula/parts.ts"
import type { WrittenPart } from "../formula/written.ts"
import type { Food } from "./weighed.ts"

/**
 * What of a formula has fermented before its dough: a "levain" part, a starter "line" in a part that has none, or a "yeasted"
 * preferment (poolish, biga, sponge). `usedG` reaches the dough, missing where the formula gives no masses; `stays` is
 * what its writer says stays in the jar, missing where nothing is said. `written` is the feeding as it stands in the formula, a starter of another
 * part counting as starter; `food` its flours, with what else goes in as a share of its fresh flour.
 */
export type Preferment = {
  key: string
  name: string
  kind: "levain" | "line" | "yeasted"
  usedG?: number
  stays?: Stays
  hydration?: Share
  food: Food[]
  other: Share
  written?: Ratio
  /** Of instant yeast on its flour. */
  yeast?: Share
  /** All that is mixed for it, each as a share of the whole; for a yeasted one. */
  lines: { name: string; share: Share }[]
}

/** The preferments of a formula, those that go straight into a final dough first; [] where there is none. */
export function prefermentsOf(parts: WrittenPart[], { parts: worked }: Pick<Figures, "parts">): Preferment[] {
  const places = placeParts(parts)
  const has = (what: LineFigures["countsAs"], index: number): boolean =>
    linesOf(worked[index]!).some(({ line }) => line.countsAs === what) ||
    places[index]!.childIndexes.some((child) => has(what, child))
  const ferments = (index: number) => has("starter", index) || has("leaven", index)
  const before = [...places.entries()].filter(([, place]) => !place.isFinal && !place.circular).map(([index]) => index)
  const intoFinal = (index: number) => Number(!places[places[index]!.intoIndex ?? -1]?.isFinal)
  const found = before
    .filter(ferments)
    .toSorted((a, b) => intoFinal(a) - intoFinal(b))
    .map((index) => {
      const children = places[index]!.childIndexes.filter(ferments)
      const broughtG = children.reduce((total, child) => total + (middle(worked[child]!.used) ?? Number.NaN), 0)
      const kind = has("starter", index) ? ("levain" as const) : ("yeasted" as const)
      return prefermentIn({ part: parts[index]!, worked: worked[index]!, place: places[index]!, broughtG, kind })
    })
  return found.length ? found : starterLines(parts, worked)
}

type Placed = { line: LineFigures; at: number }
const linesOf = ({ lines }: PartFigures): Placed[] =>
  lines.flatMap((line, at) => (line.counted && line.g?.high !== 0 ? [{ line, at }] : []))

type Found = { part: WrittenPart; worked: PartFigures; place: Place; broughtG: number; kind: Preferment["kind"] }

function prefermentIn({ part, worked, place, broughtG, kind }: Found): Preferment {
  const lines = linesOf(worked)
  const sum = (of: Placed[]) => of.reduce((total, one) => total + amountOf(one), 0)
  const as = (what: LineFigures["countsAs"]) => lines.filter(({ line }) => line.countsAs === what)
  const [flours, others, yeast] = [as("flour"), [...as("other"), ...as("salt")], as("leaven")]
  const named = (of: Placed[], as: Food["kind"]) =>
    of.map((one) => ({ kind: as, name: nameIn(one, part), share: amountOf(one) / sum(of) }))
  const written = { starter: sum(as("starter")) + broughtG, flour: sum(flours), water: sum(as("water")) }
  const isFed = written.starter > 0 && written.flour > 0 && written.water >= 0
  return {
    ...{ key: part.key, name: nameOf(part), kind, usedG: middle(worked.used), hydration: middle(worked.hydration) },
    ...(part.staysPercent.trim() ? { stays: place.stays } : {}),
    food: [...named(flours, "flour"), ...named(others, "other")].filter(({ share }) => share > 0),
    other: written.flour > 0 ? sum(others) / written.flour || 0 : 0,
    ...(isFed ? { written } : {}),
    ...(yeast.length && written.flour > 0 ? { yeast: yeastIn(yeast, part, written.flour) } : {}),
    lines: lines.map((one) => ({ name: nameIn(one, part), share: amountOf(one) / sum(lines) })),
  }
}
const nameIn = ({ at }: Placed, { lines }: WrittenPart) => lines[at]!.ingredient.trim()
/** In grams, or where the formula has none as a share of its part's flour. */
const amountOf = ({ line }: Placed) => middle(line.g) ?? middle(line.shareOfPart) ?? Number.NaN

function yeastIn(yeast: Placed[], part: WrittenPart, flour: number): Share {
  const shares = yeast.map((one) => asInstant(amountOf(one) / flour, yeastOf(one.line, nameIn(one, part))))
  return shares.reduce((sum, one) => sum + one, 0)
}

/** Ripe starter that stands in a dough itself: nobody says how it was fed, and it counts as half water. */
function starterLines(parts: WrittenPart[], figures: PartFigures[]): Preferment[] {
  return figures.flatMap((part, index) =>
    linesOf(part)
      .filter(({ line }) => line.countsAs === "starter")
      .map(({ line, at }): Preferment => {
        const name = parts[index]!.lines[at]!.ingredient.trim()
        const flour: Food = { name: "flour", share: 1, kind: "flour" }
        return {
          key: `${parts[index]!.key}/${at}`,
          name,
          kind: "line",
          usedG: middle(line.g),
          hydration: 1,
          food: [flour],
          other: 0,
          lines: [],
        }
      }),
  )
}

const middle = (range: Range | undefined) => range && (range.low + range.high) / 2
