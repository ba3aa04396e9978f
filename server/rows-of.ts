import { type AnyColumn, getTableColumns, type InferSelectModel, type SQL, sql } from "drizzle-orm"
import type { PgTable } from "drizzle-orm/pg-core"

/**
 * All rows of a table under a condition, as one value in a row of another: so that a statement brings things with all that
 * hangs on them, however many there are. It has to stand in a statement that joins something, where Drizzle writes columns
 * with their tables.
 */
export function rowsOf<Table extends PgTable>(table: Table, where: SQL | undefined, ...order: SQL[]) {
  const columns = Object.entries(getTableColumns(table) as Record<string, AnyColumn>)
  const fields = sql.join(
    columns.map(([, column]) => sql`${column}`),
    sql`, `,
  )
  const inOrder = order.length ? sql` order by ${sql.join(order, sql`, `)}` : sql``
  const rows = sql<InferSelectModel<Table>[]>`(
    select coalesce(json_agg(json_build_array(${fields})${inOrder}), '[]') from ${table} where ${where})`
  return rows.mapWith((found: unknown[][]) =>
    found.map((values) =>
      Object.fromEntries(
        columns.map(([name, column], at) => [name, values[at] === null ? null : column.mapFromDriverValue(values[at])]),
      ),
    ),
  ) as SQL<InferSelectModel<Table>[]>
}
