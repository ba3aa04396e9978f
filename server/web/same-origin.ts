import type { FastifyReply, FastifyRequest } from "fastify"

const harmless = new Set(["GET", "HEAD", "OPTIONS"])

/**
 * Refuses a request that could change something and comes from another site's page. Browsers send Sec-Fetch-Site over
 * https and on localhost, and Origin with every POST; a client that sends neither is no browser and carries no
 * cookie by accident. `publicUrl` is our address as people see it, or "" when it is the request's own.
 */
export function refuseOtherOrigins(publicUrl: string) {
  return async (request: FastifyRequest, reply: FastifyReply) => {
    if (harmless.has(request.method)) return
    const { "sec-fetch-site": site, origin } = request.headers
    const own = [publicUrl, `${request.protocol}://${request.host}`]
    const ours = site ? site === "same-origin" || site === "none" : origin === undefined || own.includes(origin)
    if (!ours) return reply.code(403).type("text/plain").send("Refused: this request came from another site.")
  }
}
