import Fraction from "fraction.js"
import type { System } from "./measures.ts"
import type { Term } from "./term.ts"
import { exact } from "./volumes.ts"
import { type Draft, edit, type Kitchen, type Reading, weighed } from "./weighed.ts"

type EggPart = "egg" | "yolk" | "white"
type EggClass = { scheme: "us" | "eu"; size: string }

/** Grams without shell: USDA SR28, WEIGHT table, NDB 01123; of a large egg the white 33 and the yolk 17: NDB 01124, 01125. */
const usG: Record<string, number> = { small: 38, medium: 44, large: 50, "extra large": 56, jumbo: 63 }
const ofLargeG = { egg: 50, yolk: 17, white: 33 }

/**
 * Middle of the class in grams with shell: Commission Regulation (EC) No 589/2008, article 4, kept by (EU) 2023/2465:
 * S below 53, M below 63, L below 73, XL from 73. S and XL have one end only; 5 g beyond it is our own choice.
 */
const euInShellG: Record<string, number> = { S: 48, M: 58, L: 68, XL: 78 }
const euClass: Record<string, string> = { small: "S", medium: "M", large: "L", "extra large": "XL", jumbo: "XL" }

/** The share of an egg that is shell: USDA SR28, refuse of NDB 01123. */
export const shellShare = new Fraction(12, 100)

/** Eggs, yolks or whites that were counted. The shell never counts, whether it was mentioned or not. */
export function weighEggs(term: Term, kitchen: Kitchen): Reading {
  const part = partOf(term, kitchen)
  const told = toldClass(term, kitchen)
  const taken: EggClass =
    told ?? (isUs(kitchen.measures) ? { scheme: "us", size: "large" } : { scheme: "eu", size: "M" })
  const g = gramsOf(part, taken)
  return weighed(term.value.mul(g), { said: [sentence(part, taken, g)], drafts: drafts(term, kitchen, part, taken) })
}

const isUs = (system: System) => system === "us" || system === "us-label"

function partOf({ unit }: Term, { name, ingredient }: Kitchen): EggPart {
  const words = `${name} ${ingredient?.slug ?? ""}`
  if (unit?.name === "yolk" || /yolk/i.test(words)) return "yolk"
  return unit?.name === "white" || /\begg[- ]?whites?\b/i.test(words) ? "white" : "egg"
}

/** The size typed with the amount or the ingredient: "2 large", "eggs, size M". Single letters are EU classes. */
function toldClass(term: Term, { name, measures }: Kitchen): EggClass | undefined {
  const inName = /\b(extra[ -]large|small|medium|large|jumbo)\b/i.exec(name)?.[0].toLowerCase().replace("-", " ")
  const size = term.size ?? inName ?? /\b(XL|[SML])\b/.exec(name)?.[0]
  if (!size) return undefined
  if (["S", "M", "L"].includes(size)) return { scheme: "eu", size }
  const us = size === "jumbo" || isUs(term.system ?? measures)
  return us
    ? { scheme: "us", size: size === "XL" ? "extra large" : size }
    : { scheme: "eu", size: euClass[size] ?? size }
}

function gramsOf(part: EggPart, { scheme, size }: EggClass): Fraction {
  const inShell = exact(euInShellG[size] ?? euInShellG.M!)
  const edible = scheme === "us" ? exact(usG[size] ?? usG.large!) : inShell.sub(inShell.mul(shellShare))
  return edible.mul(ofLargeG[part]).div(ofLargeG.egg)
}

const partWords = { egg: "egg", yolk: "egg yolk", white: "egg white" }
const classWords = ({ scheme, size }: EggClass) => (scheme === "us" ? `US ${size}` : `EU ${size}`)

function sentence(part: EggPart, taken: EggClass, g: Fraction) {
  const isTabled = taken.scheme === "us" && (part === "egg" || taken.size === "large")
  const inShell = `from ${euInShellG[taken.size]} g in the shell, the middle of its class, of which 12 % is shell`
  const why = isTabled
    ? "USDA SR28"
    : taken.scheme === "us"
      ? "in proportion to a large one, USDA SR28"
      : `${inShell} (Regulation (EC) No 589/2008; USDA SR28)`
  const without = part === "egg" ? " without its shell" : ""
  return `One ${classWords(taken)} ${partWords[part]} is taken as ${Number(g.valueOf().toFixed(1))} g${without}: ${why}.`
}

const classes: EggClass[] = [
  { scheme: "us", size: "medium" },
  { scheme: "us", size: "large" },
  { scheme: "us", size: "extra large" },
  { scheme: "eu", size: "M" },
  { scheme: "eu", size: "L" },
]

/** Other sizes when none was given; the other scheme's when nobody said whose "large" it is. */
function drafts(term: Term, kitchen: Kitchen, part: EggPart, taken: EggClass): Draft[] {
  const size = toldClass(term, kitchen) && (term.size ?? taken.size)
  if (size && (term.system || !Object.hasOwn(euClass, size))) return []
  const other: EggClass =
    taken.scheme === "us" ? { scheme: "eu", size: euClass[taken.size]! } : { scheme: "us", size: size! }
  const offered = size ? [other] : classes.filter((one) => classWords(one) !== classWords(taken))
  return offered.map((one) => {
    const words = classWords(one)
    const inFull = ` ${words} ${part}s`
    const at = term.sizeAt ? edit(term.sizeAt, term.unit ? words : inFull) : edit(term.unitAt, inFull)
    return { label: `${words} ${partWords[part]}`, edits: [at] }
  })
}
