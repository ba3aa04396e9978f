import type { FastifyInstance } from "fastify"

export default async function table(_app: FastifyInstance) {}
