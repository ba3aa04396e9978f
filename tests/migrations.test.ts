import { readFile } from "node:fs/promises"
import { PGlite } from "@electric-sql/pglite"
import { expect, test } from "vitest"

const migrate = async (db: PGlite, name: string) =>
  db.exec(await readFile(new URL(`../migrations/${name}.sql`, import.meta.url), "utf8"))

test("a formula written before amounts could be read in two ways keeps every word and gains the fields", async () => {
  const db = await PGlite.create()
  await migrate(db, "0000_start")
  const line = (ingredient: string) => ({ quantity: "100 g", ingredient, note: "", countsAs: "" })
  const written = {
    ...{ about: "", pan: "", pieces: "2", pieceMass: "", stages: [] },
    parts: [
      { key: "a", name: "Levain", goesInto: "b", staysPercent: "10", lines: [line("flour"), line("water")] },
      { key: "b", name: "Dough", goesInto: "", staysPercent: "", lines: [] },
    ],
  }
  await db.query("insert into users (sign_in_name, password_hash, zone) values ('ana', '', 'UTC')")
  await db.query("insert into formulas (owner_id, title, draft) values (1, 'Tin loaf', $1)", [written])
  await db.query(
    "insert into revisions (formula_id, number, title, content, what_changed) values (1, 1, 'Tin loaf', $1, '')",
    [written],
  )

  await migrate(db, "0001_kitchen_measures")

  const lines = written.parts[0]!.lines.map((one) => ({ ...one, readAs: "" }))
  const expected = {
    ...written,
    ...{ measures: "us", pieceTolerance: "", finishing: [], variants: [] },
    parts: [{ ...written.parts[0], lines }, written.parts[1]],
  }
  const { rows } = await db.query("select draft, content from formulas join revisions on formula_id = formulas.id")
  expect(rows).toEqual([{ draft: expected, content: expected }])
  await db.close()
})
