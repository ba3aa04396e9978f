import type { Db } from "../server/db.ts"

/** Every SQL statement that Drizzle hands to the driver while something is done, in order; of the app's own database handle. */
export async function statementsOf(db: Db, work: () => Promise<unknown>): Promise<string[]> {
  const { session } = db as unknown as { session: { logger: { logQuery(sql: string): void } } }
  const before = session.logger
  const said: string[] = []
  session.logger = { logQuery: (sql) => said.push(sql) }
  try {
    await work()
  } finally {
    session.logger = before
  }
  return said
}
