/**
 * The words of an ingredient's name that tell what it is, each once, in the singular and in order of the alphabet; so
 * "Rye flours, dark" and "dark rye flour" are the same. What it is meant for ("for the levain", "to taste"), how warm it
 * is and what was done to it in the kitchen ("at 30 °C", "and cooled") is left out.
 */
export function wordsOf(name: string): string[] {
  const plain = name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/\b(for|to (taste|serve|dust|finish|glaze|brush|sprinkle)|plus (extra|more|some))\b.*/, "")
    .replace(/[’']s?\b/g, "")
    .replace(/\bfree[ -]range\b/g, "")
    .replace(/\b\d+(?:[.,]\d+)?(?: ?[-–] ?\d+)? ?(?:(?:[°º]|degrees? ?)[cf]?|[cf]\b)/g, "")
    .replace(/\b\d+(?:[.,]\d+)? ?% (?:protein|hydration)\b/g, "")
    .replace(/\b(?:and|then) (?:cooled|softened|drained|rinsed|chopped|sliced|peeled|warmed)\b/g, "")
    .replace(/\bstone[ -]milled\b/g, "stoneground")
    .replace(/\b(stone|whole)[ -](ground|grain|meal)\b/g, "$1$2")
    .replace(/\bwholewheat\b/g, "whole wheat")
    .replace(/(\d) *(%|percent\b|per cent\b)/g, "$1%")
  const words = plain.match(/[\p{L}\d.%]+/gu) ?? []
  return [...new Set(words.map((word) => oneSpelling(singular(word.replace(/\.+$/, "")))).filter(Boolean))].sort()
}

/** Whether a word may be left out without the thing becoming another one: how warm, how cut, how good, how much. */
export const changesNothing = (word: string) => idle.has(word)

const singular = (word: string) =>
  word
    .replace(/ies$/, "y")
    .replace(/(o|sh|ch|x)es$/, "$1")
    .replace(/([^su])s$/, "$1")

const oneSpelling = (word: string) => spellings[word] ?? word

const spellings: Record<string, string> = {
  yoghurt: "yogurt",
  yoghourt: "yogurt",
  soya: "soy",
  skimmed: "skim",
  dry: "dried",
  castor: "caster",
  grey: "gray",
  iodized: "iodised",
  raising: "rising",
}

const idle = new Set(
  [
    "warm lukewarm tepid cold cool chilled hot boiling frozen thawed fridge at room temperature temp",
    "straight from the fridge soft softened melted cubed diced chopped roughly finely coarsely sliced cut into cube piece",
    "grated shredded crumbled crushed minced ground peeled pitted beaten lightly well sifted unsifted packed firmly loosely",
    "heaped level leveled levelled rounded scant generous large medium small organic local good best quality",
    "fresh freshly pure pasteurised pasteurized uht stoneground optional divided more some of a about the your",
    "ripe active scalded cooled warmed heated drained rinsed strained riced milled bassinage autolyse reserved remaining",
    "additional extra first second",
  ]
    .join(" ")
    .split(" "),
)
