import type { Range } from "../amounts.ts"
import { findIngredient } from "../ingredients/catalogue.ts"
import { guessCountsAs } from "../ingredients/counts-as.ts"
import { noMasses, tooMuch, unreadLine, unweighed } from "./change-problems.ts"
import { workOut } from "./formula.ts"
import { capital } from "./gaps.ts"
import { type Known, readLine, sameWords } from "./lines.ts"
import { nameOf } from "./parts.ts"
import { swapPart } from "./variants.ts"
import { type Amount, amountIn, amountOf, inGrams, minus, type Typed, written } from "./weighed-out.ts"
import type { WrittenFormula, WrittenLine, WrittenPart } from "./written.ts"

/**
 * What one baker did otherwise than the formula says. Left out or swapped: of the part with that key, the lines whose
 * ingredient reads so, or with "" the whole part; `out` is how much of it, "" all of it. Swapped or added: `instead` came,
 * `in` of it, "" as much as it took the place of; added to the part with that key, "" the final dough. The others change no
 * amount.
 */
export type Change = {
  kind: "left-out" | "swapped" | "added" | "skipped" | "oven" | "other"
  partKey: string
  ingredient: string
  out: Typed
  instead: string
  in: Typed
}

/**
 * What a change took out and brought in, as far as that can be weighed. With a `problem` it is counted nowhere; `atMost` is
 * then what there was, of which more was to come out.
 */
export type Effect = { out?: Amount; in?: Amount; problem?: string; atMost?: Amount; note?: string }
export type Changed = { formula: WrittenFormula; effects: Effect[]; problems: string[] }

/**
 * The formula as this baker made it: a plain formula again, so that every figure follows. Changes are made one after the
 * other; what no longer fits, or cannot be weighed, is left uncounted with a sentence. What the formula gives in percent
 * is held at the grams it asks for. `effects` has one for each change. Nothing to change gives back the formula itself;
 * the one handed in stays untouched. Never throws.
 */
export function applyChanges(formula: WrittenFormula, changes: Change[], known: Known = {}): Changed {
  const moving = ({ kind }: Change) => kind === "left-out" || kind === "swapped" || kind === "added"
  if (!changes.some(moving)) return { formula, effects: changes.map(() => ({})), problems: [] }
  const figures = workOut(formula, known)
  const weighed = inGrams(formula, figures)
  const place = { known, flour: figures.flour, scaled: weighed.scaled }
  let { parts } = weighed.formula
  const effects = changes.map((change): Effect => {
    if (!moving(change)) return {}
    const { parts: changed, ...effect } = makeOne({ ...weighed.formula, parts }, change, place)
    parts = changed ?? parts
    return effect
  })
  const counted = effects.some((effect, index) => !effect.problem && moving(changes[index]!))
  return {
    formula: counted ? { ...weighed.formula, parts } : formula,
    effects,
    problems: effects.flatMap(({ problem }) => problem ?? []),
  }
}

type Place = { known: Known; flour?: Range; scaled: boolean }
type Made = Effect & { parts?: WrittenPart[] }

function makeOne(formula: WrittenFormula, change: Change, place: Place): Made {
  const { parts } = formula
  if (change.kind === "added") return add(parts, change, place)
  const part = parts.find(({ key }) => key === change.partKey)
  if (!part)
    return { problem: `The part${change.ingredient && ` with ${change.ingredient} in it`} is no longer there.` }
  if (change.ingredient === "") return takePart(formula, part, change, place)
  return takeLines(parts, part, change, place)
}

function add(parts: WrittenPart[], change: Change, place: Place): Made {
  const part = parts.find(({ key, goesInto }) => (change.partKey ? key === change.partKey : goesInto === ""))
  if (!part) return { problem: `The part that ${change.instead} was added to is no longer there.` }
  const came = amountOf(change.in, change.instead, place.known, place.flour)
  if (!came) return { problem: unweighed(change.in, change.instead, place.known, "without it") }
  if (came.unit === "g" && !place.scaled) return { problem: noMasses(change.in) }
  // a line named as a part that goes into this one would not count
  const name = parts.some((one) => sameWords(nameOf(one), change.instead)) ? `${change.instead}, added` : change.instead
  return { in: came, parts: withLines(parts, part, [...part.lines, line(name, came, change.in)]) }
}

function takeLines(parts: WrittenPart[], part: WrittenPart, change: Change, { known, flour, scaled }: Place): Made {
  const { ingredient, instead } = change
  const theirs = part.lines.filter((one) => sameWords(one.ingredient, ingredient))
  const [first] = theirs
  if (!first) return { problem: `${capital(ingredient)} is no longer in ${nameOf(part)}.` }
  const present = amountIn(theirs, known)
  const all = change.out.quantity === ""
  const out = all ? present : amountOf(change.out, ingredient, known, flour)
  if (!all && !out) return { problem: unweighed(change.out, ingredient, known, "with all of it") }
  const left = leftOf(present, out, all)
  if (left === "unknown") return { problem: present ? noMasses(change.out) : unreadLine(ingredient) }
  if (left === "too much") return { problem: tooMuch(ingredient), atMost: present }

  const came = change.kind === "swapped" ? cameFor(change, out, { known, flour, scaled }) : {}
  if ("problem" in came) return came
  const rest = left.high > 0 ? [{ ...first, quantity: written(left), readAs: "" }] : []
  const fresh = change.kind === "swapped" ? [inPlaceOf(first, instead, came.in, change.in, known)] : []
  const at = part.lines.indexOf(first)
  const others = part.lines.filter((one) => one === first || !theirs.includes(one))
  const note = fresh.some(({ countsAs }) => countsAs !== "")
    ? `${capital(instead)} is not known here; it is counted as ${ingredient} was.`
    : undefined
  return { out, ...came, note, parts: withLines(parts, part, others.toSpliced(at, 1, ...rest, ...fresh)) }
}

/** What is left of lines; "unknown" where the two amounts cannot be set against each other. */
function leftOf(present: Amount | undefined, out: Amount | undefined, all: boolean) {
  if (all) return { unit: "g", low: 0, high: 0 } as const
  return present && out && present.unit === out.unit ? minus(present, out) : "unknown"
}

/** What came for `out`: as much of it, unless something else was typed. */
function cameFor({ instead, in: typed }: Change, out: Amount | undefined, { known, flour, scaled }: Place): Made {
  if (typed.quantity === "") return { in: out }
  const came = amountOf(typed, instead, known, flour)
  if (!came) return { problem: unweighed(typed, instead, known, "without it") }
  return came.unit === "g" && !scaled ? { problem: noMasses(typed) } : { in: came }
}

/** An ingredient that nobody knows counts as what it took the place of, so that a flour stays a flour. */
function inPlaceOf(old: WrittenLine, name: string, came: Amount | undefined, typed: Typed, known: Known): WrittenLine {
  const isKnown = findIngredient(name, known.own) !== undefined || guessCountsAs(name) !== "other"
  const fresh = came ? line(name, came, typed) : { ...old, ingredient: name, note: "" }
  return { ...fresh, countsAs: isKnown ? "" : readLine(old, known).countsAs }
}

/** A part that goes into another: all of it, with the parts made for it, or some of it, which then stays in its jar. */
function takePart(formula: WrittenFormula, part: WrittenPart, change: Change, place: Place): Made {
  const name = nameOf(part)
  if (part.goesInto === "") return { problem: `${capital(name)} is the dough itself; say what of it.` }
  const { used, made } = workOut(formula, place.known).parts[formula.parts.indexOf(part)]!
  const present: Amount | undefined = used && { unit: "g", ...used }
  const all = change.out.quantity === ""
  const out = all ? present : amountOf(change.out, name, place.known, place.flour)
  if (!all && !out) return { problem: unweighed(change.out, name, place.known, "with all of it") }
  const left = leftOf(present, out, all)
  if (left === "unknown" || (!all && !made)) return { problem: noMasses(change.out) }
  if (left === "too much") return { problem: tooMuch(name), atMost: present }

  const swapped = change.kind === "swapped"
  const came = swapped ? cameFor(change, out, place) : {}
  if ("problem" in came) return came
  if (swapped && !came.in) return { problem: unreadLine(name) }
  const fresh = came.in ? [line(change.instead, came.in, change.in)] : []
  const changed =
    left.high === 0
      ? withoutPart(formula.parts, part, fresh)
      : usedLess(formula.parts, part, fresh, 1 - middle(left) / middle(made!))
  return changed.problem ? { problem: capital(changed.problem) } : { out, ...came, parts: changed.parts }
}

const withoutPart = (parts: WrittenPart[], { key }: WrittenPart, lines: WrittenLine[]) =>
  swapPart(parts, { part: key, insteadOf: "", lines })

function usedLess(parts: WrittenPart[], part: WrittenPart, lines: WrittenLine[], share: number) {
  const less = { ...part, staysPercent: written({ unit: "share", low: share, high: share }) }
  const into = parts.find(({ key }) => key === part.goesInto)
  if (!into) return { parts, problem: `${nameOf(part)} goes into a part that is no longer there.` }
  const rest = parts.map((one) => (one === part ? less : one))
  return { parts: withLines(rest, into, [...into.lines, ...lines]), problem: undefined }
}

const middle = ({ low, high }: Range) => (low + high) / 2

const line = (ingredient: string, amount: Amount, { quantity }: Typed): WrittenLine => ({
  ...{ ingredient, note: "", countsAs: "" },
  quantity: quantity || written(amount),
  readAs: written(amount),
})

const withLines = (parts: WrittenPart[], { key }: WrittenPart, lines: WrittenLine[]) =>
  parts.map((part) => (part.key === key ? { ...part, lines } : part))
