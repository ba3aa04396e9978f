import type { FastifyRequest } from "fastify"
import type { Revision } from "../formulas/queries.ts"
import { publicUrl } from "../web/public-url.ts"
import { asDataBlock, recipeOf } from "./recipe-out.ts"

/** A revision as a Recipe, to be found at that path of this house. */
export const recipeOfRevision = (request: FastifyRequest, revision: Revision, path: string) =>
  recipeOf({ ...revision, url: publicUrl(request) + path, house: publicUrl(request) })

/** The same as the text of a data block in a page. */
export const recipeDataOf = (request: FastifyRequest, revision: Revision, path: string) =>
  asDataBlock(recipeOfRevision(request, revision, path))
