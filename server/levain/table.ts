import type { Say } from "../accounts/say.ts"
import { rate } from "../dough/fermentation/growth.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import { type Levain, limitsFor, shareFilling } from "../dough/levain/builds.ts"
import { hoursBetween, warmthFor } from "../dough/levain/by-ratio.ts"
import { type Feeding, feedingIn, feedingOf } from "../dough/levain/feeding.ts"
import { type Hours, ripeningTable } from "../dough/levain/ripening.ts"
import { fToC } from "../dough/units.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { feedingWords } from "../plans/typed.ts"
import type { Asked } from "./forms.ts"

/** A column is a temperature, °C, a row a feeding; `mark` says whose it is. `for` is what it takes to be ripe in the time that was asked. */
export type Column = { atC: number; mark: string; for: string | null }
export type Row = { ratio: string; mark: string; cells: (Hours | null)[]; for: string | null }
export type Table = { columns: Column[]; rows: Row[]; hours: number | null }

type Own = { kitchen: Kitchen; written?: Ratio; answered?: Feeding; say: Say }

/** How long a levain takes: feedings by temperatures, with the person's own places and the formula's feeding marked. */
export function tableFor({ levain, fedAt, ripeAt }: Asked, own: Own): Table {
  const { rise, starter, hydration } = levain
  const columns = columnsFor(levain, own)
  const rows = rowsFor(levain, own)
  const cells = ripeningTable(
    rows.map(({ feeding }) => feeding.share),
    columns.map(({ atC }) => atC),
    rise,
  )
  const between = fedAt && ripeAt ? { feedAt: fedAt, ripeAt } : undefined
  const hours = between ? hoursBetween(between.feedAt, between.ripeAt) : null
  const ratioAt = (atC: number) => {
    const share = hours && rate(atC) > 0 ? shareFilling(hours, 1, { ...levain, atC }) : Number.NaN
    const { least, most } = limitsFor(1, levain)
    const inLimits = share >= least && share <= most
    return inLimits ? feedingWords(feedingOf(share, { starterHydration: starter.hydration, hydration }).ratio) : null
  }
  const warmthOf = (feeding: Feeding) => {
    const warmth = between && warmthFor([feeding], rise, between)
    return warmth?.kind === "found" ? own.say.temperature(warmth.value) : null
  }
  return {
    hours,
    columns: columns.map((column) => ({ ...column, for: ratioAt(column.atC) })),
    rows: rows.map(({ feeding, mark }, index) => ({
      ...{ ratio: feedingWords(feeding.ratio), mark, for: warmthOf(feeding) },
      cells: cells[index]!.at.map((cell) => cell ?? null),
    })),
  }
}

const celsius = [18, 20, 22, 24, 26, 28, 30]
/** About the same, in whole numbers. */
const fahrenheit = [65, 68, 71, 74, 77, 80, 83, 86].map(fToC)

function columnsFor({ atC }: Levain, { kitchen, say }: Own): Omit<Column, "for">[] {
  const { roomC, prooferC, coolC, coolPlace } = kitchen
  const marked = [
    { atC, mark: "as asked" },
    ...(roomC ? [{ atC: roomC.value, mark: "your room" }] : []),
    ...(prooferC ? [{ atC: prooferC.value, mark: "your warm box" }] : []),
    ...(coolC ? [{ atC: coolC.value, mark: `your ${coolPlace || "cold place"}` }] : []),
  ].filter((one) => rate(one.atC) > 0 && one.atC >= coldestC)
  const plain = (say.temperatureUnit === "F" ? fahrenheit : celsius).map((c) => ({ atC: c, mark: "" }))
  return merged([...marked, ...plain], (a, b) => Math.abs(a.atC - b.atC) < 0.05).sort((a, b) => a.atC - b.atC)
}
// In a fridge a levain takes days, and the model hardly knows how many. Our own limit.
const coldestC = 10

const flourParts = [1, 2, 3, 4, 5, 8, 10]

function rowsFor(levain: Levain, { written, answered }: Own): { feeding: Feeding; mark: string }[] {
  const { starter, hydration } = levain
  const { least, most } = limitsFor(1, levain)
  const plain = flourParts
    .map((flour) => feedingIn({ starter: 1, flour, water: 0 }, starter.hydration).share)
    .filter((share) => share >= least && share <= most)
    .map((share) => ({ feeding: feedingOf(share, { starterHydration: starter.hydration, hydration }), mark: "" }))
  const own = [
    ...(written ? [{ feeding: feedingIn(written, starter.hydration), mark: "the formula’s" }] : []),
    ...(answered ? [{ feeding: answered, mark: "this one" }] : []),
  ]
  return merged([...own, ...plain], (a, b) => feedingWords(a.feeding.ratio) === feedingWords(b.feeding.ratio)).sort(
    (a, b) => b.feeding.share - a.feeding.share,
  )
}

/** Those that are the same as one before them lend it their mark and go. */
function merged<One extends { mark: string }>(all: One[], same: (a: One, b: One) => boolean): One[] {
  const kept: One[] = []
  for (const one of all) {
    const present = kept.findIndex((other) => same(other, one))
    if (present < 0) kept.push(one)
    else kept[present] = { ...kept[present]!, mark: [kept[present]!.mark, one.mark].filter(Boolean).join(", ") }
  }
  return kept
}
