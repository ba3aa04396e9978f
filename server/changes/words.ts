import type { Say } from "../accounts/say.ts"
import type { Amount } from "../dough/formula/weighed-out.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import { guessCountsAs } from "../dough/ingredients/counts-as.ts"
import type { Change } from "./as-baked.ts"

/** A change in words for the bench: "Left out: 20 g salt", "Rescue: +40 g bread flour at 14:32, during Bulk". */
export function changeIn(change: Change, say: Say): string {
  return `${headOf(change)}: ${whatIn(change, say)}${whenIn(change, say)}`
}

/** The same among other differences: "20 g salt left out", "+40 g bread flour". */
export function differenceIn(change: Change, say: Say): string {
  const what = whatIn(change, say)
  switch (change.kind) {
    case "left-out":
      return `${what} left out`
    case "skipped":
      return `${what} skipped`
    case "oven":
      return `oven: ${what}`
    default:
      return what
  }
}

function headOf({ kind, instead }: Change) {
  if (kind !== "added") return heads[kind]
  const counts = findIngredient(instead)?.countsAs ?? guessCountsAs(instead)
  return counts === "flour" || counts === "water" ? "Rescue" : "Added"
}
const heads = { "left-out": "Left out", swapped: "Swapped", skipped: "Skipped", oven: "Oven", other: "Otherwise" }

function whatIn(change: Change, say: Say): string {
  const { kind, instead, quantity, outQuantity, effect, words, old } = change
  switch (kind) {
    case "left-out":
      return amountOf(outQuantity, effect.out, old, say)
    case "swapped":
      return swapIn(change, say)
    case "added":
      return `${effect.in ? "+" : ""}${amountOf(quantity.replace(/^\+\s*/, ""), effect.in, instead, say)}`
    case "skipped":
      return change.stage ?? "a stage that is gone"
    default:
      return words
  }
}

/** "rye flour for wholemeal flour, 120 g" where as much came as went, else "150 g rye flour for 120 g wholemeal flour". */
function swapIn({ instead, quantity, outQuantity, effect, old }: Change, say: Say) {
  const [out, came] = [effect.out && shown(effect.out, say), effect.in && shown(effect.in, say)]
  if (quantity === "" && outQuantity === "") return `${instead} for ${old}${came ? `, ${came}` : ""}`
  if (out && out === came) return `${instead} for ${amountOf(outQuantity, effect.out, old, say)}`
  return `${amountOf(quantity, effect.in, instead, say)} for ${amountOf(outQuantity, effect.out, old, say)}`
}

/** "2 tbsp (29.6 g) of water", "20 g salt", or "salt, “a handful”" where nobody can weigh it. */
function amountOf(typed: string, amount: Amount | undefined, name: string, say: Say) {
  const weighed = amount && shown(amount, say)
  if (!typed) return weighed ? `${weighed} ${name}` : name
  if (!weighed) return `${name}, “${typed}”`
  return bare(typed) === bare(weighed) ? `${weighed} ${name}` : `${typed} (${weighed}) of ${name}`
}

const bare = (text: string) => text.replace(/\s/g, "")
const shown = ({ unit, ...range }: Amount, say: Say) => (unit === "g" ? say.massRange(range) : say.percentRange(range))

function whenIn({ doneAt, doneTyped, doneAboutMin, stage }: Change, say: Say) {
  if (!doneAt) return ""
  const about = doneAboutMin ? `about ${say.time(doneAt)}` : say.time(doneAt)
  return ` at ${about}${stage ? `, during ${stage}` : ""}${doneTyped && doneAboutMin ? ` (“${doneTyped}”)` : ""}`
}
