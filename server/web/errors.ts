import type { FastifyError, FastifyInstance } from "fastify"

const apologies: Record<number, string> = {
  400: "That request could not be read.",
  403: "You may not do that here.",
  404: "There is nothing here, or it is not shared with you.",
  409: "Somebody else made this on your phone; it is kept there until they sign in again.",
  413: "That is too large.",
  415: "That kind of form cannot be read here.",
  429: "Too many tries. Wait a few minutes, then try again.",
  500: "Something broke on our side. What you had saved before is safe; please try again.",
}

/** An error that meets the one error handler as the page for `statusCode`. */
export const problem = (statusCode: number) => Object.assign(new Error(apologies[statusCode]), { statusCode })

/** The row, or the 404 page when there is none. */
export function found<Row>(row: Row | undefined): Row {
  if (row === undefined) throw problem(404)
  return row
}

/** Every error that nobody mended becomes a page in plain words; the log keeps the details of our own mistakes. */
export function answerErrors(app: FastifyInstance) {
  app.setErrorHandler<FastifyError>((error, request, reply) => {
    const status = error.validation ? 404 : (error.statusCode ?? 500)
    if (status >= 500) request.log.error(error)
    return reply.code(status).view("error", { status, message: apologies[status] ?? apologies[500] })
  })
  app.setNotFoundHandler((_request, reply) => reply.code(404).view("error", { status: 404, message: apologies[404] }))
}
