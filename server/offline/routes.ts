import type { FastifyInstance } from "fastify"

export default async function offline(_app: FastifyInstance) {}
