import type { FastifyInstance } from "fastify"

export default async function questions(_app: FastifyInstance) {}
