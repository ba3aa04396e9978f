import type { FastifyInstance } from "fastify"

export default async function now(_app: FastifyInstance) {}
