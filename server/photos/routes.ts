import type { FastifyInstance } from "fastify"

export default async function photos(_app: FastifyInstance) {}
