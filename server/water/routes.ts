import type { FastifyInstance } from "fastify"
import { addPageAbout } from "../formulas/subject.ts"
import { waterPage } from "./page.ts"

export default async function water(app: FastifyInstance) {
  addPageAbout(app, "water", { view: "water/show", page: waterPage })
}
