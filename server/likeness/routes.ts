import type { FastifyInstance } from "fastify"

export default async function likeness(_app: FastifyInstance) {}
