import type { FastifyInstance } from "fastify"

export default async function bakes(_app: FastifyInstance) {}
