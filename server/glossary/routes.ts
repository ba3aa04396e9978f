import type { FastifyInstance } from "fastify"
import { anyone } from "../web/access.ts"
import { entries, glossary } from "./words.ts"

/** The words of the trade in plain words; open to anyone, since formulas with a public link lead here. */
export default async function words(app: FastifyInstance) {
  app.get("/glossary", { config: { access: anyone } }, async (_request, reply) => {
    return reply.view("glossary/show", { glossary, names: namesInOrder(), termOf })
  })
}

const termOf = (key: string) => entries.find(([one]) => one === key)?.[1].term

/** Every name, the alternative ones too, in the order of the alphabet, with the entry it leads to. */
function namesInOrder() {
  const names = entries.flatMap(([key, { term, also = [] }]) =>
    [term, ...also].map((name) => ({ name, key, isAlso: name !== term })),
  )
  return names.sort((a, b) => a.name.localeCompare(b.name, "en-GB"))
}
