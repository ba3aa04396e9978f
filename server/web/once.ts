import type { FastifyRequest } from "fastify"

/** Works something out once for each request, however many ask: the rule of who may come in, and then the page. */
export function oncePerRequest<Result>(work: (request: FastifyRequest) => Promise<Result>) {
  const asked = new WeakMap<FastifyRequest, Promise<Result>>()
  return (request: FastifyRequest) => {
    const result = asked.get(request) ?? work(request)
    asked.set(request, result)
    return result
  }
}
