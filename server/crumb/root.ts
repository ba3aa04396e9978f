/**
 * The first of the group that `of` belongs to, in a forest of parents where a root is its own; halves the way on each walk.
 * Source: R. E. Tarjan and J. van Leeuwen 1984, J ACM 31:245, path halving (from memory).
 */
export function root(parent: Int32Array, of: number): number {
  let at = of
  while (parent[at] !== at) {
    parent[at] = parent[parent[at]!]!
    at = parent[at]!
  }
  return at
}
