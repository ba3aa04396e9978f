import { countsAsOf, findIngredient } from "../ingredients/catalogue.ts"
import type { CountsAs } from "../ingredients/counts-as.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { readQuantity } from "../quantity/read.ts"
import type { Measures, Quantity } from "../quantity/reading.ts"
import { nameOf, type Place } from "./parts.ts"
import type { WrittenLine, WrittenPart } from "./written.ts"

/**
 * What the writer's measures hold, the ingredients that a class has added to the house's, and in which unit masses are
 * told in sentences, grams if none is given.
 */
export type Known = { measures?: Measures; own?: Ingredient[]; massUnit?: "g" | "oz" }

/** A line as read. `counted` is false for an empty row, and for one that only repeats the part of that index. */
export type ReadLine = {
  written: WrittenLine
  name: string
  quantity: Quantity
  ingredient?: Ingredient
  countsAs: CountsAs
  guessed: boolean
  counted: boolean
  repeats?: number
  problem?: string
}
export type PlacedLine = ReadLine & { partIndex: number; lineIndex: number }

/** All lines of all parts, each with its place; one that only repeats a part which goes in as a whole does not count. */
export function readLines(parts: WrittenPart[], places: Place[], known: Known): PlacedLine[] {
  return parts.flatMap(({ lines }, partIndex) =>
    lines.map((written, lineIndex) => {
      const line = { ...readLine(written, known), partIndex, lineIndex }
      const repeats = places[partIndex]?.childIndexes.find((child) => sameWords(nameOf(parts[child]), line.name))
      if (repeats === undefined) return line
      const problem = `${line.name} goes into this part as a whole already, so this line is not counted; leave it out.`
      return { ...line, repeats, counted: false, problem }
    }),
  )
}

/** Whether two names are the same, however they are capitalised. */
export const sameWords = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase()

/** A line by itself, as those of the finishing are. */
export function readLine(written: WrittenLine, { measures, own }: Known): ReadLine {
  const name = written.ingredient.trim()
  const ingredient = findIngredient(name, own)
  const quantity = readQuantity(written.readAs || written.quantity, { ingredient, name, measures })
  const empty = name === "" && quantity.kind === "blank"
  const unnamed = !empty && name === "" ? "Name the ingredient." : undefined
  return {
    ...{ written, name, quantity, ingredient },
    countsAs: written.countsAs || countsAsOf(name, own),
    guessed: !written.countsAs,
    counted: !empty,
    problem: quantity.kind === "asks" ? quantity.question : unnamed,
  }
}
