import type { StageKind } from "../schedule.ts"

/** A word that tells a stage's kind, and where it stands. "heat" warms the oven, which is a stage of no dough. */
export type SaidKind = { kind: StageKind | "heat"; word: string; start: number }

/**
 * What bakers call each kind of stage. Common practice, no published source. Of two that begin at the same letter the
 * first counts.
 */
const tells: [StageKind | "heat", RegExp][] = [
  [
    "heat",
    /\b(?:pre-?heat\w*|heat (?:the|your|an) oven|(?:turn|switch) (?:on )?(?:the|your) oven(?: on)?|oven (?:on|to))\b/gi,
  ],
  ["bulk", /\b(?:bulk\w*|first (?:rise|rising|prove|proof|proving|ferment\w*)|primary ferment\w*)\b/gi],
  ["proof", /\b(?:(?:final|second|last) (?:rise|rising|prove|proof|proving|ferment\w*))\b/gi],
  ["retard", /\b(?:retard\w*|cold[- ](?:proof|prove|proving|ferment\w*|rise)|refrigerat\w*|fridge|chill\w*)\b/gi],
  ["bulk", /\b(?:ferment(?:s|ed|ing|ation)?|ris(?:e|es|ing|en)|doubl(?:e|es|ed|ing))\b/gi],
  ["proof", /\b(?:proof(?:s|ed|ing)?|prov(?:e|es|ed|ing))\b/gi],
  [
    "fold",
    /\b(?:stretch(?:es)? (?:and|&) folds?|coil folds?|sets? of folds?|folds\b|fold (?:the dough|it|once|twice|every)|letter fold|laminat\w*)/gi,
  ],
  [
    "shape",
    /\b(?:pre-?shap\w*|shap(?:e|es|ed|ing)|form (?:in)?to|roll (?:out|up|it|into|each)|braid\w*|plait\w*|press into|tighten\w*)\b/gi,
  ],
  [
    "divide",
    /\b(?:divid(?:e|es|ed|ing)|portion(?: (?:out|into))?|cut (?:the dough )?into|scale (?:the dough )?(?:in)?to)\b/gi,
  ],
  [
    "bake",
    /\b(?:bak(?:e|es|ed|ing)(?! ?(?:powder|soda|stone|sheet|paper|parchment|tray|tin|pan|dish|mat|steel))|lid (?:on|off)|(?:un)?covered in the oven|until (?:deep(?:ly)? |dark )?golden\w*|oven spring)\b/gi,
  ],
  ["cool", /\b(?:cool(?:s|ed|ing)?(?! water)|wire rack|cooling rack)\b/gi],
  [
    "rest",
    /\b(?:autolys\w*|rest(?:s|ed|ing)?|relax\w*|soak\w*|stand(?:s|ing)?|sit(?:s|ting)?|ripen\w*|bloom\w*|leave|set aside|matur\w*|wait\w*|hydrat(?:e|ing))\b/gi,
  ],
  [
    "mix",
    /\b(?:mix(?:es|ed|ing)?|combin\w*|stir\w*|knead\w*|whisk\w*|blend\w*|incorporat\w*|add(?:s|ed|ing)?|dissolv\w*|beat(?:en|ing)?|cream (?:the|together)|rub|feed|refresh|build|squeeze|pour|toss|work (?:in|the)|fold in)\b/gi,
  ],
]

/** Every word of a sentence that tells a kind, in order. Never throws. */
export function kindsIn(sentence: string): SaidKind[] {
  const found = tells.flatMap(([kind, pattern]) =>
    [...sentence.matchAll(pattern)].map(({ 0: word, index }) => ({ kind, word, start: index })),
  )
  const within = (one: SaidKind, other: SaidKind) =>
    other !== one && other.start <= one.start && other.start + other.word.length >= one.start + one.word.length
  return found
    .filter((one, at) => !found.some((other, before) => within(one, other) && (other.word !== one.word || before < at)))
    .sort((one, other) => one.start - other.start)
}

/** The word nearest before a place in the sentence, else the first one; "leave it" only where nothing else tells more. */
export const tellingAt = (kinds: SaidKind[], place: number | undefined): SaidKind | undefined => {
  const before = place === undefined ? undefined : kinds.findLast(({ start }) => start < place)
  return before ?? kinds.find(({ word }) => !isWeak.test(word)) ?? kinds[0]
}

const isWeak = /^(?:leave|set aside|sit|stand|wait)/i
