import { z } from "zod"
import { formulaShape } from "./own-content.ts"

/** What stands in our files under the term of our own, as a JSON Schema at that address. */
export const formulaSchemaAt = (address: string) => ({
  ...z.toJSONSchema(formulaShape, { io: "input" }),
  $id: address,
  title: "A formula, as the files of this house carry it beside a Recipe of schema.org",
})
