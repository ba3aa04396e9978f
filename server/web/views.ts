import { fileURLToPath } from "node:url"
import fastifyView from "@fastify/view"
import { Eta } from "eta"
import type { FastifyInstance } from "fastify"

declare module "fastify" {
  interface FastifyReply {
    /** What every view gets beside its own data. */
    locals?: Record<string, unknown>
  }
}

const root = fileURLToPath(new URL("../../views", import.meta.url))

/** `reply.view("formulas/show", data)`; every view gets what is known `everywhere`, too. A template that prints `undefined` throws, so a missing value fails a test. */
export function renderViews(app: FastifyInstance, everywhere: Record<string, unknown>) {
  const eta = new Eta({
    views: root,
    autoFilter: true,
    filterFunction: (value) => {
      if (value === undefined) throw new Error("A view printed undefined.")
      return String(value ?? "")
    },
  })
  // read once and kept, except where somebody is changing them
  app.register(fastifyView, {
    engine: { eta },
    root,
    viewExt: "eta",
    defaultContext: everywhere,
    production: process.env.NODE_ENV !== "development",
  })
}
