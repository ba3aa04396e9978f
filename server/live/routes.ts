import type { FastifyInstance } from "fastify"

export default async function live(_app: FastifyInstance) {}
