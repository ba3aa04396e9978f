import type { FastifyInstance } from "fastify"

export default async function formulas(_app: FastifyInstance) {}
