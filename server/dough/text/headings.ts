import { undecorated } from "./lines.ts"

/** What a line opens: the list of ingredients, the steps, notes, or a part by its name. */
export type Heading =
  | { opens: "ingredients" | "steps" | "notes" }
  | { opens: "part"; name: string; into?: string; stays?: string; isSure: boolean }

const ingredients = /^(?:the )?ingredients?(?: list)?(?: \(.*\))?$/i
const steps =
  /^(?:the )?(?:method|instructions?|directions?|preparation|steps?|procedure|process|stages|what to do|how to make (?:it|them|the .{1,30})|making (?:it|the (?:bread|dough))|schedule|timeline)(?: \(.*\))?$/i
const notes = /^(?:(?:the )?(?:baker(?:’s|'s) |cook(?:’s|'s) |recipe )?(?:notes?|tips?|remarks?|comments?|hints?))$/i

// What bakers call a mix made on its own, and what goes on, in or around a dough. Common practice, no published source.
const preferment =
  /\b(?:levain|leaven|starter|poolish|biga|sponge|pre-?ferment|p[aâ]te ferment[eé]e|old dough|soaker|scald|tangzhong|yudane|roux|porridge|autolyse|build|refreshment|chef|barm|mother)\b/i
const dough = /\b(?:(?:final|main|bread|brioche|second)? ?dough|final mix)\b/i
const around =
  /\b(?:filling|topping|glaze|icing|frosting|(?:egg ?)?wash|dusting|finish(?:ing)?|decorat\w*|crumble|streusel|syrup|on and around it|sprinkl\w*|coating|garnish|to serve|crust|for the (?:tin|pan|tray|top|work ?top|bench))\b/i

/** Whether a part of that name is a ferment, soaker or the like that goes into a dough. */
export const isPreferment = (name: string) => preferment.test(name) && !/\bfinal|main\b/i.test(name)
/** Whether it is the dough itself. */
export const isDough = (name: string) => dough.test(name) && !/old dough/i.test(name)
/** Whether what is listed there stands outside the dough: filling, wash, topping. */
export const isAround = (name: string) => around.test(name) && !dough.test(name)

/**
 * What a line opens, undefined for one that is no heading. `isSure` is false where only the name speaks for it, as for
 * "Levain", which may be an ingredient just as well.
 */
export function headingIn(line: string): Heading | undefined {
  const plain = undecorated(line)
  const isMarked = plain !== line.replace(/\s+/g, " ").trim()
  const named = plain.replace(/\s*:$/, "").trim()
  if (!named || outsideBrackets(named).length > 80 || named.length > 400) return undefined
  if (ingredients.test(named)) return { opens: "ingredients" }
  if (steps.test(named)) return { opens: "steps" }
  if (notes.test(named)) return { opens: "notes" }
  const ends = plain.endsWith(":")
  const [, forThe] = /^(?:for|to make) (?:the |an? )?(\D.*)$/i.exec(named) ?? []
  // "Bake at 230 °C:" and "Makes 2 loaves:" are no parts
  const isWords =
    /^\p{L}/u.test(named) && !/\d\s*(?:g|kg|ml|oz|lb|°|cups?|tbsp|tsp|%|min|h\b)/i.test(outsideBrackets(named))
  if (!isWords || /[.!?]$/.test(named) || outsideBrackets(named).split(" ").length > 9) return undefined
  const isNamed = [preferment, dough, around].some((known) => known.test(named))
  if (!ends && !forThe && !isNamed && !isMarked) return undefined
  return { opens: "part", ...placeIn(capital(forThe ?? named)), isSure: ends || Boolean(forThe) || isMarked }
}

const outsideBrackets = (text: string) => text.replace(/\(.*?\)/g, "")
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

/** "Levain (goes into Final dough, 6 % stays in its jar)", as our own text says it. */
function placeIn(name: string) {
  const [, own = name, told = ""] = /^(.*\S) \(([^()]*(?:\([^()]*\)[^()]*)*)\)$/.exec(name) ?? []
  const into = /^goes into (.+?)(?:, [^,]* stays in its jar)?$/.exec(told)?.[1]
  const stays = /(?:^|, )([^,]+) stays in its jar$/.exec(told)?.[1]
  return into ? { name: own, into, ...(stays ? { stays } : {}) } : { name }
}
