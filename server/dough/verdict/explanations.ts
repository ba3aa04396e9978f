/**
 * Why a bread may have come out as it did. `name` in plain words, `check` what would tell it from the others. Which there
 * are is common in trade and household texts on faults of bread; the checks are common practice, no published source,
 * but where one is named.
 */
export type Explanation = { name: string; check: string }

export const explanations = {
  underproofed: {
    name: "Underproofed",
    check: "Let the same dough stand longer, or warmer, and change nothing else.",
  },
  overproofed: {
    name: "Overproofed",
    check: "Bake part of the same dough earlier and lay the two crumbs side by side.",
  },
  "nothing wrong": {
    name: "Nothing wrong",
    check: "Bake it again the same way: a good bread that comes out good twice needs no cause.",
  },
  underbaked: {
    name: "Underbaked, or cut warm",
    // Lean bread 93–99 °C, enriched from about 88 °C: Home Baking Association; a flour company's test bakes.
    check: "Read the inside temperature (a lean loaf is done from about 93 °C) and cut it cold.",
  },
  "levain over-ripe": {
    name: "Levain over-ripe",
    check: "Build the levain again and use it at its peak, or read its pH: 3.8 and below is past it.",
  },
  "levain weak": {
    name: "Levain young or weak",
    check: "Watch a pinch of the dough in a straight-sided jar, beside one raised with a levain known to be strong.",
  },
  "too wet": {
    name: "Too wet for this flour",
    check: "Hold back a twentieth of the flour's mass in water, and look at the dough right after mixing.",
  },
  "weak gluten": {
    name: "Gluten too little developed",
    check: "Stretch a piece thin before the bulk: if it tears at once, mix or fold more.",
  },
  "overworked gluten": {
    name: "Gluten overworked",
    check: "Mix a shorter time and stop as soon as a piece stretches thin without tearing.",
  },
  "salt short": {
    name: "Salt left out, or too little",
    check: "Taste the bread, and weigh what is left in the salt jar's portion.",
  },
  "salt too much": {
    name: "Too much salt",
    check: "Taste the bread, and work the salt out as a share of the flour, not of the dough.",
  },
  "yeast missing": {
    name: "Leaven left out, dead or too little",
    check: "Keep a piece of the dough warm for a few hours, or stir the yeast into warm water and see if it foams.",
  },
  "cold oven": {
    name: "Cold oven or pot, or baked cold",
    check: "Heat oven and pot longer, measure the oven, and let the dough come up before it goes in.",
  },
  "flour by cup": {
    name: "Too much flour, measured by the cup",
    check: "Weigh what one of your cups holds, filled as you filled it.",
  },
  "too rich": {
    name: "Too rich for its structure or its tin",
    check: "Bake a part in a smaller or flared tin, or let it cool in its tin.",
  },
  handling: {
    name: "Handling at the bench",
    check: "Have somebody else shape half of the same dough.",
  },
  "oven too hot": {
    name: "Crust set too soon: oven too hot, or no steam",
    check: "Bake one of two loaves with steam or under a lid, and measure the oven.",
  },
  "sprouted or spoilt": {
    name: "Sprouted flour, or bread gone ropy",
    check: "Bake with another flour. If the crumb pulls threads or smells of overripe fruit, throw the bread away.",
  },
} satisfies Record<string, Explanation>

export type ExplanationKey = keyof typeof explanations
/** All but the three that say how far the dough had come: with each of these it may have come anywhere. */
export type FaultKey = Exclude<ExplanationKey, "underproofed" | "overproofed" | "nothing wrong">

export const faultKeys = (Object.keys(explanations) as ExplanationKey[]).filter(
  (key): key is FaultKey => !["underproofed", "overproofed", "nothing wrong"].includes(key),
)
