/** Two ends of a written range; `low === high` for a single value. */
export type Range = { low: number; high: number }

/** What a baker's quantity says: a mass, a share of the total flour (0.02 = 2 %), or nothing we can read. */
export type Quantity =
  | { kind: "mass"; g: Range }
  | { kind: "percent"; share: Range }
  | { kind: "unread"; why: string }
  | { kind: "blank" }

export function readQuantity(text: string): Quantity {
  throw new Error(`not built yet: ${text}`)
}
