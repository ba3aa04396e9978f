import type { Measures } from "../dough/quantity/reading.ts"
import { nothingSaid, piecesIn } from "../dough/text/facts.ts"
import { readIngredients } from "../dough/text/read-ingredients.ts"
import type { ReadStep } from "../dough/text/said.ts"
import { readSteps } from "../dough/text/steps.ts"
import { type Brought, broughtFrom, cameWhole } from "./brought.ts"
import { minutesOf } from "./durations.ts"
import { stepsIn, textIn } from "./instructions.ts"
import { ownValueIn } from "./namespace.ts"
import { contentIn } from "./own-content.ts"
import { ingredientsOf } from "./recipe-out.ts"
import { isNode, type Node } from "./recipes-in.ts"

type Read = Pick<Brought, "kind" | "title" | "content" | "came" | "left" | "remarks">

/** A Recipe as a formula: whole where it is one of ours, else as far as its words can be read. */
export function readRecipe(recipe: Node, measures: Measures): Read {
  const own = ownValueIn(recipe)
  if (own === undefined) return readOthers(recipe, measures)
  const read = contentIn(own)
  const anew = (why: string) => {
    const others = readOthers(recipe, measures)
    return { ...others, remarks: [why, ...others.remarks] }
  }
  if ("problem" in read) return anew(`The whole formula in it cannot be read (${read.problem}), so its recipe was.`)
  const { content } = read
  if (JSON.stringify(recipe.recipeIngredient) !== JSON.stringify(ingredientsOf(content)))
    return anew("Its list of ingredients was changed after it left a house like this one, so the list was read anew.")
  const title = typeof recipe.name === "string" ? recipe.name : ""
  return { kind: "formula", title, content, came: cameWhole(content), left: [], remarks: [] }
}

function readOthers(recipe: Node, measures: Measures): Read {
  const { parts, finishing, left } = readIngredients(
    linesIn(recipe.recipeIngredient ?? recipe.ingredients ?? recipe.supply),
  )
  const { steps, used } = timed(readSteps(stepsIn(recipe.recipeInstructions ?? recipe.step ?? recipe.steps)), recipe)
  const yields = linesIn(recipe.recipeYield ?? recipe.yield)
  const makes = yields.map(piecesIn).find((one) => one !== undefined)
  const read = {
    title: textIn(recipe.name ?? recipe.headline).replace(/\s+/g, " "),
    about: [...linesIn(recipe.description), ...(makes || !yields[0] ? [] : [`Yield: ${yields[0]}`])],
    credits: creditsOf(recipe),
    makes: { ...nothingSaid, ...makes },
    ...{ parts, finishing, steps },
  }
  return { kind: "recipe", ...broughtFrom(read, measures), left: [...left, ...othersOf(recipe, used)], remarks: [] }
}

/** Where there is one bake without a time, the recipe's own time for cooking is its time. */
function timed(steps: ReadStep[], recipe: Node): { steps: ReadStep[]; used: string[] } {
  const cook = typeof recipe.cookTime === "string" ? minutesOf(recipe.cookTime) : undefined
  const bakes = steps.filter(({ kind }) => kind === "bake")
  const [bake] = bakes
  if (!cook || bakes.length !== 1 || bake!.highMin) return { steps, used: [] }
  const assumes = [...bake!.assumes, "Its time is the recipe’s time for cooking."]
  const asks = bake!.asks.filter((ask) => !/^How long|^It says|stand here/.test(ask))
  const filled = { ...bake!, lowMin: Math.round(cook), highMin: Math.round(cook), assumes, asks }
  return { steps: steps.map((step) => (step === bake ? filled : step)), used: ["cookTime"] }
}

/** Who it is by, where it comes from and under which licence, a line each. */
function creditsOf(recipe: Node): string[] {
  const by = textIn(recipe.author ?? recipe.creator)
  const address = [recipe.url, recipe.mainEntityOfPage, recipe["@id"], recipe.isBasedOn].map(addressIn).find(Boolean)
  const licence = addressIn(recipe.license) || textIn(recipe.license)
  const published = textIn(recipe.publisher)
  const rights = [recipe.copyrightYear, recipe.copyrightHolder].map(textIn).filter(Boolean).join(" ")
  return [
    by && `By ${by}`,
    address ? `From ${address}` : published && `From ${published}`,
    licence && `Licence: ${licence}`,
    rights && `© ${rights}`,
  ].filter((credit) => credit !== undefined && credit !== "")
}

function addressIn(value: unknown): string {
  const address = isNode(value) ? (value["@id"] ?? value.url) : [value].flat()[0]
  return typeof address === "string" && /^https?:\/\/\S{1,500}$/.test(address) ? address : ""
}

const read = new Set(
  "@context @type @id name headline description author creator url mainEntityOfPage isBasedOn license publisher copyrightYear copyrightHolder recipeIngredient ingredients supply recipeInstructions step steps recipeYield yield oven:formula".split(
    " ",
  ),
)

/** What else the recipe has, each property with all its words. */
const othersOf = (recipe: Node, used: string[]): string[] =>
  Object.entries(recipe)
    .filter(([name]) => !read.has(name) && !used.includes(name) && !name.endsWith("#formula"))
    .map(([name, value]) => `${name}: ${leavesOf(value).join(", ")}`)

const leavesOf = (value: unknown): string[] => {
  if (Array.isArray(value)) return value.flatMap(leavesOf)
  if (!isNode(value)) return value === null || value === undefined ? [] : [String(value)]
  return Object.entries(value).flatMap(([name, one]) => (name === "@type" ? [] : leavesOf(one)))
}

const linesIn = (value: unknown): string[] =>
  [value]
    .flat(2)
    .map((one) =>
      isNode(one) && Array.isArray(one.itemListElement) ? linesIn(one.itemListElement).join("\n") : textIn(one),
    )
    .flatMap((text) => text.split("\n"))
    .filter((line) => line.trim())
