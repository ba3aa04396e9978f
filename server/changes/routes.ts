import type { FastifyInstance } from "fastify"

export default async function changes(_app: FastifyInstance) {}
