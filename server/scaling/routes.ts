import type { FastifyInstance } from "fastify"
import { addPageAbout } from "../formulas/subject.ts"
import { scalingPage } from "./page.ts"

export default async function scaling(app: FastifyInstance) {
  addPageAbout(app, "scale", { view: "scaling/show", page: scalingPage })
}
