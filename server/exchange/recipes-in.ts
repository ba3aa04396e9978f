import { storable } from "./plain.ts"

export type Node = Record<string, unknown>

// More than any page has around its recipe. Our own limits.
const deepest = 40
const mostNodes = 100_000

export class TooDeep extends Error {}

/**
 * Every Recipe in a parsed JSON-LD document, wherever it stands: alone, in an array, a @graph or another thing; each once,
 * with what it only points to put in its place. Throws TooDeep for what is nested deeper than a page would be.
 */
export function recipesIn(document: unknown): Node[] {
  const clean = cleaned(document, { left: mostNodes }, 0)
  const byId = new Map<string, Node>()
  const recipes: Node[] = []
  eachNode(clean, (node) => {
    const { "@id": id } = node
    if (typeof id === "string" && Object.keys(node).length > 1) byId.set(id, node)
    if (isOf(node, "Recipe")) recipes.push(node)
  })
  const whole = recipes.map((recipe) => resolved(recipe, byId, 0) as Node)
  return [...new Map(whole.map((recipe) => [JSON.stringify(recipe), recipe])).values()]
}

/** Whether a node is of a type of schema.org, however that is written. */
export function isOf(node: unknown, type: string): boolean {
  if (!isNode(node)) return false
  return [node["@type"]].flat().some((one) => typeof one === "string" && one.split(/[/:#]/).at(-1) === type)
}

export const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && !Array.isArray(value)

function cleaned(value: unknown, budget: { left: number }, depth: number): unknown {
  if (typeof value === "string") return storable(value)
  if (typeof value !== "object" || value === null) return value
  if (depth > deepest || budget.left-- <= 0) throw new TooDeep()
  if (Array.isArray(value)) return value.map((one) => cleaned(one, budget, depth + 1))
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [storable(name), cleaned(one, budget, depth + 1)]),
  )
}

function eachNode(value: unknown, see: (node: Node) => void) {
  if (Array.isArray(value)) for (const one of value) eachNode(one, see)
  else if (isNode(value)) {
    see(value)
    for (const one of Object.values(value)) eachNode(one, see)
  }
}

/** With nodes in place of references to them, but not within themselves. */
function resolved(value: unknown, byId: Map<string, Node>, depth: number): unknown {
  if (depth > 6 || typeof value !== "object" || value === null) return value
  if (Array.isArray(value)) return value.map((one) => resolved(one, byId, depth + 1))
  const { "@id": id, ...rest } = value as Node
  const target = typeof id === "string" && !Object.keys(rest).length ? byId.get(id) : undefined
  if (target) return resolved(target, byId, depth + 2)
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, resolved(one, byId, depth + 1)]))
}

/**
 * The texts of a page's JSON-LD blocks. A script ends at the next "</script" whatever it holds (HTML, 13.2.5.4), so looking
 * for that finds them all; the rest of the page is not read.
 */
export function dataBlocksIn(html: string): string[] {
  const blocks: string[] = []
  // a tag of more letters than anybody writes is none, so that a page of nothing but openings is soon read
  const [opening, closing] = [/<script\b([^<>]{0,500})>/gi, /<\/script/gi]
  for (let tag = opening.exec(html); tag; tag = opening.exec(html)) {
    closing.lastIndex = opening.lastIndex
    const stop = closing.exec(html)?.index ?? html.length
    if (/\btype\s*=\s*["']?\s*application\/ld\+json\b/i.test(tag[1]!)) blocks.push(html.slice(opening.lastIndex, stop))
    opening.lastIndex = stop
  }
  return blocks
}
