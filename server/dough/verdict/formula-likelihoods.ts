import type { Range } from "../amounts.ts"
import type { FaultKey } from "./explanations.ts"
import type { BakeFacts } from "./facts.ts"
import { type Piece, times } from "./likelihoods.ts"

const own = "our own judgement, no published source"
const base = { group: "", decides: false, measured: false }

/** What the formula, and what was done otherwise, say for or against the faults, one piece each. */
export function piecesOfFormula(facts: BakeFacts): Piece[] {
  return [ofWater(facts), ofSalt(facts), ofRichness(facts), ofCulture(facts), ...ofChanges(facts)].filter(
    (one) => one !== undefined,
  )
}

/** 75 % is neither here nor there; a dough at 65 % is hardly ever too wet, one at 85 % easily. */
function ofWater({ hydration }: BakeFacts): Piece | undefined {
  if (!hydration) return undefined
  const factor = Math.exp(Math.min(Math.max((middle(hydration) - 0.75) / 0.1, -1), 1.4))
  if (factor > 0.8 && factor < 1.25) return undefined
  const words = `Hydration ${percent(middle(hydration))}: ${factor > 1 ? "much water for most flours" : "not much water"}`
  return { ...base, key: "hydration", words, source: own, group: "hydration", logs: times({ "too wet": factor }) }
}

/** Usually 1.8–2.2 % of the flour: common practice. */
function ofSalt({ salt, changes = [] }: BakeFacts): Piece | undefined {
  if (!salt || changes.some(({ kind }) => kind === "salt left out")) return undefined
  const share = middle(salt)
  const words = `Salt ${(share * 100).toFixed(1)} % of the flour, where 1.8 to 2.2 % is usual`
  const piece = { ...base, key: "salt", words, source: `${own}; usual range common practice`, group: "salt" }
  if (share <= 0.004) return { ...piece, decides: true, logs: times({ "salt short": 12 }) }
  if (share < 0.014) return { ...piece, logs: times({ "salt short": 3 }) }
  if (share > 0.035) return { ...piece, decides: true, logs: times({ "salt too much": 12 }) }
  if (share > 0.027) return { ...piece, logs: times({ "salt too much": 3 }) }
  return undefined
}

/** A brioche has half the flour's mass in butter, a soft roll a tenth: common practice. */
function ofRichness({ fat, sugar }: BakeFacts): Piece | undefined {
  if (fat === undefined) return undefined
  const rich = fat + (sugar ?? 0) / 2
  if (rich > 0.12 && rich < 0.2) return undefined
  const words = rich >= 0.2 ? "A rich dough" : "A dough with little or no fat"
  return { ...base, key: "fat", words, source: own, group: "fat", logs: times({ "too rich": rich >= 0.2 ? 4 : 0.2 }) }
}

/** Baker's yeast knows no levain; a sponge may still be weak. */
function ofCulture({ culture }: BakeFacts): Piece | undefined {
  if (culture !== "baker's yeast") return undefined
  const factors = { "levain over-ripe": 0.1, "levain weak": 0.3 } as const
  return { ...base, key: "culture", words: "Raised with baker's yeast", source: own, logs: times(factors) }
}

/** How much likelier each makes a fault; our own judgement. Something else done otherwise says nothing by itself. */
const changed: { [kind in NonNullable<BakeFacts["changes"]>[number]["kind"]]?: { [key in FaultKey]?: number } } = {
  "salt left out": { "salt short": 15 },
  "yeast left out": { "yeast missing": 15 },
  "flour by cup": { "flour by cup": 10 },
  "flour added": { "too wet": 4, handling: 2 },
  "other flour": { "too wet": 3, "weak gluten": 2 },
}

const ofChanges = ({ changes = [] }: BakeFacts): Piece[] =>
  changes.flatMap(({ kind, words }, at) => {
    const factors = changed[kind]
    if (!factors) return []
    const decides = kind !== "other flour"
    return {
      ...base,
      key: `change ${at + 1}`,
      words,
      source: own,
      group: `changed: ${kind}`,
      decides,
      logs: times(factors),
    }
  })

const middle = ({ low, high }: Range) => (low + high) / 2
const percent = (share: number) => `${Math.round(share * 100)} %`
