import type { FastifyRequest } from "fastify"

/** The address people open us at, without a slash at its end: PUBLIC_URL, or else the one this request came to. */
export function publicUrl(request: FastifyRequest) {
  return request.server.settings.PUBLIC_URL || `${request.protocol}://${request.host}`
}
