/** Where the schema of what we say beyond schema.org stands in each house. */
export const formulaSchemaPath = "/schemas/formula-1.json"
/** The prefix of our terms in a file; a term is known by its whole address. */
export const namespaceAt = (house: string) => `${house}${formulaSchemaPath}#`
/** The term whose value is a whole formula. */
export const ownTerm = "oven:formula"

/** The formula that a file of any house carries beside its Recipe, by the whole address of the term; undefined without. */
export function ownValueIn(recipe: Record<string, unknown>): unknown {
  const contexts = [recipe["@context"]].flat().filter((one) => typeof one === "object" && one !== null) as object[]
  const prefixes = contexts.flatMap((context) =>
    Object.entries(context).flatMap(([prefix, address]) =>
      typeof address === "string" && address.endsWith(namespaceAt("")) ? [prefix] : [],
    ),
  )
  const terms = [...prefixes.map((prefix) => `${prefix}:formula`), ...Object.keys(recipe).filter(isWhole)]
  return terms.map((term) => recipe[term]).find((value) => value !== undefined)
}

const isWhole = (term: string) => term.endsWith(`${namespaceAt("")}formula`)
