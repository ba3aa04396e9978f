import type { FastifyInstance } from "fastify"

export default async function bakeDays(_app: FastifyInstance) {}
