import Fraction from "fraction.js"
import type { KitchenVolume, MassUnit, MetricVolume, System } from "./measures.ts"

/** What an amount is counted in. `pieces` are named in the singular: egg, stick, packet, or any portion of an ingredient. */
export type Unit =
  | { of: "mass"; name: MassUnit }
  | { of: "volume"; name: MetricVolume | KitchenVolume }
  | { of: "percent"; name: "%" }
  | { of: "pinch"; name: "pinch" }
  | { of: "pieces"; name: string }

/** How a cup or spoon was filled. */
export type Manner = "level" | "loose" | "packed" | "scant" | "heaped"

/** What a word, phrase or sign says in an amount. */
export type Lexeme =
  | { is: "number"; value: Fraction; written?: string; broken?: true }
  | { is: "unit"; unit: Unit; system?: System; said?: string }
  | { is: "size"; size: string }
  | { is: "system"; system: System }
  | { is: "manner"; manner: Manner }
  | { is: "by"; by: "weight" | "volume" }
  | { is: "shell"; shell: "in" | "out" }
  | { is: "remark" }
  | { is: "foreign"; what: string }
  | { is: "word"; tricky?: true }
  | { is: Sign }

/** Words and signs that need no more said than what they are. */
export type Sign =
  | ("dozen" | "a" | "of" | "and" | "plus" | "minus" | "or" | "to" | "dash" | "times" | "each")
  | ("about" | "between" | "atLeast" | "orMore" | "upTo" | "extra" | "loose" | "degrees" | "filler")
  | ("open" | "close" | "slash" | "comma" | "equals" | "ratio" | "hash" | "odd")

const phrases = new Map<string, Lexeme>()
/** How many words the longest phrase has that begins with a word. */
const longest = new Map<string, number>()
const say = (lexeme: Lexeme, list: string) => {
  for (const phrase of list.split(",").map((one) => one.trim())) {
    const words = phrase.split(" ")
    phrases.set(phrase, lexeme)
    longest.set(words[0]!, Math.max(words.length, longest.get(words[0]!) ?? 0))
  }
}
const sign = (is: Sign, list: string) => say({ is }, list)

const mass = (name: MassUnit, list: string) => say({ is: "unit", unit: { of: "mass", name } }, list)
mass("mg", "mg, milligram, milligrams")
mass("g", "g, gr, grs, gm, gms, gram, grams, gramm, gramme, grammes")
mass("dag", "dag, dkg, deka")
mass("kg", "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes")
mass("oz", "oz, ozs, ounce, ounces")
mass("lb", "lb, lbs, pound, pounds")

const volume = (name: MetricVolume | KitchenVolume, list: string, more?: { system?: System; said?: string }) =>
  say({ is: "unit", unit: { of: "volume", name }, ...more }, list)
volume("ml", "ml, mls, cc, ccm, millilitre, millilitres, milliliter, milliliters")
volume("cl", "cl, centilitre, centilitres, centiliter, centiliters")
volume("dl", "dl, decilitre, decilitres, deciliter, deciliters")
volume("l", "l, lt, ltr, litre, litres, liter, liters")
volume("fl oz", "fl oz, fl ozs, floz, fluid oz, fluid ounce, fluid ounces, fl ounce, fl ounces, oz fl, oz by volume")
volume("fl oz", "ounce by volume, ounces by volume, oz fluid, ounces fluid")
volume("gill", "gill, gills")
volume("cup", "c, cup, cups, cupful, cupfuls")
volume("pint", "pt, pts, pint, pints")
volume("quart", "qt, qts, quart, quarts")
volume("gallon", "gal, gals, gallon, gallons")
volume(
  "dsp",
  "dsp, dsps, dstspn, dessertspoon, dessertspoons, dessertspoonful, dessertspoonfuls, dessert spoon, dessert spoons",
)
volume("tbsp", "tbsp, tbsps, tbs, tb, tbl, tbls, tblsp, tbspn, tablespoon, tablespoons, tablespoonful, tablespoonfuls")
volume("tbsp", "table spoon, table spoons, tablespoonsful")
volume("tsp", "tsp, tsps, ts, tspn, teaspoon, teaspoons, teaspoonful, teaspoonfuls, tea spoon, tea spoons")
// German and French spoons are metric ones.
volume("tbsp", "el, esslöffel, cuillère à soupe, cuillères à soupe", { system: "metric" })
volume("tsp", "tl, teelöffel, cuillère à café, cuillères à café", { system: "metric" })
// The capital letter is what tells them apart: common practice, no published source.
volume("tbsp", "T", { said: "T with a capital is read as tablespoon." })
volume("tsp", "t", { said: "A small t is read as teaspoon." })

say({ is: "unit", unit: { of: "percent", name: "%" } }, "%, percent, per cent, pct")
say({ is: "unit", unit: { of: "pinch", name: "pinch" } }, "pinch, pinches, pinchful, prise, prisen, pincée, pincées")

const pieces = (name: string, list: string) => say({ is: "unit", unit: { of: "pieces", name } }, list)
pieces("egg", "egg, eggs, whole egg, whole eggs")
pieces("yolk", "yolk, yolks, egg yolk, egg yolks, eggyolk, eggyolks")
pieces("white", "white, whites, egg white, egg whites")
pieces("stick", "stick, sticks")
pieces(
  "packet",
  "packet, packets, pkt, pkts, pkg, pkgs, package, packages, pack, packs, sachet, sachets, envelope, envelopes",
)
pieces("packet", "pck, päckchen, pouch, pouches")
pieces("cube", "cube, cubes, würfel")
pieces("cake", "cake, cakes")
pieces("block", "block, blocks")
for (const name of ["can", "tin", "jar", "bag", "bottle", "carton", "tub", "container", "punnet"])
  pieces(name, `${name}, ${name}s`)
pieces("box", "box, boxes")
pieces("dash", "dash, dashes")
pieces("spoon", "spoon, spoons, spoonful, spoonfuls")
for (const name of "handful fistful knob drizzle splash glug sprinkle sprinkling dusting dollop lump slice scoop".split(
  " ",
))
  pieces(name, `${name}, ${name}s`)
for (const name of "glass mug bowl ladle drop smidgen tad hint squeeze ramekin part rest remainder".split(" "))
  pieces(name, `${name}, ${name}${name.endsWith("s") ? "es" : "s"}`)
pieces("rest", "remaining")

for (const size of ["small", "medium", "large", "extra large", "jumbo"]) say({ is: "size", size }, size)
say({ is: "size", size: "medium" }, "med")
say({ is: "size", size: "large" }, "lg, lge")
say({ is: "size", size: "extra large" }, "x large, very large")
for (const size of ["S", "M", "XL"]) say({ is: "size", size }, size)
say({ is: "size", size: "XL" }, "xl")
for (const size of ["S", "M", "L", "XL"]) say({ is: "size", size }, `size ${size.toLowerCase()}`)

const system = (name: System, list: string) => say({ is: "system", system: name }, list)
system("us", "us, u s, usa, american, us customary, customary")
system("us-label", "us label, label")
system("metric", "metric")
system("imperial", "imperial, uk, u k, british")
system("australian", "australian, aus, au")
system("eu", "eu, european")

const manner = (name: Manner, list: string) => say({ is: "manner", manner: name }, list)
manner("level", "level, levelled, leveled, flat")
manner("loose", "sifted, unpacked, loosely packed, lightly packed, spooned")
manner("packed", "packed, firmly packed, tightly packed, well packed, pressed, packed firmly, firmly pressed")
manner("scant", "scant, scanty, bare")
manner("heaped", "heaped, heaping, rounded, mounded, generous, good, big, overflowing")

say({ is: "by", by: "weight" }, "by weight, weight, wt, by wt, in weight, net weight, net wt, net, avoirdupois, av")
say({ is: "by", by: "volume" }, "by volume, volume, fluid")
say(
  { is: "shell", shell: "in" },
  "in shell, in the shell, in shells, in their shells, with shell, with shells, with the shell, shell on",
)
say(
  { is: "shell", shell: "out" },
  "without shell, without shells, without the shell, out of shell, out of the shell, shelled, no shell",
)

const number = (value: Fraction, list: string) => say({ is: "number", value }, list)
for (const [index, word] of "one two three four five six seven eight nine ten eleven twelve".split(" ").entries())
  number(new Fraction(index + 1), word)
number(new Fraction(1, 2), "half, halves")
number(new Fraction(1, 3), "third, thirds")
number(new Fraction(1, 4), "quarter, quarters")
number(new Fraction(1, 8), "eighth, eighths")
sign("dozen", "dozen, doz")
sign("a", "a, an")

sign(
  "about",
  "about, approximately, approx, circa, ca, around, roughly, nearly, almost, ish, or so, give or take, more or less",
)
sign("about", "~, ≈, ∼, some about")
sign(
  "atLeast",
  "at least, min, minimum, minimum of, a minimum of, no less than, not less than, more than, over, upwards of, >, ≥",
)
sign("orMore", "or more, and more, and up, or over, and upwards, or above")
sign(
  "upTo",
  "up to, at most, no more than, not more than, less than, under, max, maximum, maximum of, a maximum of, below, <, ≤",
)
sign("upTo", "or less, or under, or fewer")
sign("extra", "extra, more, additional, further, another")
sign(
  "loose",
  "to taste, as needed, as required, as necessary, if needed, if necessary, if required, when needed, optional, q s",
)
sign("loose", "enough, sufficient, some, few, several, little, bit, touch, plenty, lots, couple, ?")
sign(
  "filler",
  "the, full, whole, all, in all, in total, total, altogether, size, sized, just, only, exactly, room temperature",
)
sign(
  "filler",
  "room temp, baker s, bakers, baker's, baker’s, bakers', bp, is, are, now, later, first, then, again, both, s, free range, !",
)
sign("ratio", ":")

sign("of", "of")
sign("and", "and, &")
sign("between", "between")
sign("plus", "plus, +")
sign("minus", "minus, less")
sign("or", "or")
sign("to", "to, till, until")
sign("times", "x, X, ×, *, times")
sign("each", "each, apiece, à")
sign("open", "(")
sign("close", ")")
sign("slash", "/, |")
sign("comma", ";")
sign("equals", "=")
sign("dash", "-, ..")
sign("degrees", "°, degree, degrees, deg, ° c, ° f, degrees c, degrees f, deg c, deg f, celsius, fahrenheit, oC, oF, F")
sign("hash", "#")
phrases.set(",", { is: "comma" })

say(
  { is: "remark" },
  "for, with, in, at, on, from, after, before, when, if, as, into, during, because, so, but, not, including",
)
say(
  { is: "word", tricky: true },
  "per, every, twice, thrice, double, doubled, triple, tripled, except, without, made, used, left, reserved, mixed",
)
say({ is: "foreign", what: "a temperature" }, "temp, temperature, ddt")
say(
  { is: "foreign", what: "a time" },
  "hour, hours, hr, hrs, h, minute, minutes, mins, second, seconds, sec, secs, day, days, overnight",
)
say({ is: "foreign", what: "a length" }, "mm, cm, inch, inches")
say({ is: "foreign", what: "a hydration" }, "hydration, hydrated")
say(
  { is: "foreign", what: "an inoculation, which may be starter over flour or flour inside the starter" },
  "inoculation, inoculated, seeded",
)
say({ is: "foreign", what: "a ratio" }, "ratio")

/** The longest phrase that begins with the word at `at`, and how many words it takes; capitals count only where they tell. */
export function meaningOf(words: string[], at: number): { lexeme: Lexeme; length: number } | undefined {
  const first = words[at] ?? ""
  const most = Math.min(longest.get(first.toLowerCase()) ?? 1, words.length - at)
  for (let length = most; length > 0; length--) {
    const phrase = length === 1 ? first : words.slice(at, at + length).join(" ")
    const lexeme = phrases.get(phrase) ?? phrases.get(phrase.toLowerCase())
    if (lexeme) return { lexeme, length }
  }
}
