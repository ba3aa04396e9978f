import { notEnough } from "../statistics/answer.ts"

/** Bakes at the oven below which nothing at all is said of a class: of four, one odd kitchen is a quarter. Our own judgement. */
export const fewestBakes = 5
/** Bakes below which no share of the spread is told: it is a variance, which few values hardly give. Our own judgement. */
export const fewestExplained = 8
/** Bakes below which no difference is called shared: five on one side of the plan are still chance, 1 in 16 (see signTest). */
export const fewestShared = 6

const words = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"]

/** That there are too few to say something, in words. */
export const tooFewOf = (count: number, fewest: number, what: string) =>
  notEnough(`${capital(words[count] ?? String(count))} ${what}; it takes ${words[fewest] ?? fewest}.`)

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
