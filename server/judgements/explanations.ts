import { explanations, type FaultKey, faultKeys } from "../dough/verdict/explanations.ts"

/** What may explain a bread beside how far its dough had come. */
export const otherExplanations = faultKeys.map((key) => ({ key, name: explanations[key].name }))

/** The name of what a judgement says explains the bread; "" for nothing, and for what is no explanation any more. */
export const explanationName = (key: string) =>
  Object.hasOwn(explanations, key) ? explanations[key as FaultKey].name : ""
