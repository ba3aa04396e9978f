import type { FastifyInstance } from "fastify"
import { addPageAbout } from "../formulas/subject.ts"
import { levainPage } from "./page.ts"

export default async function levain(app: FastifyInstance) {
  addPageAbout(app, "levain", { view: "levain/show", page: levainPage })
}
