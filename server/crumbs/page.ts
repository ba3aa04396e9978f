import type { FastifyRequest } from "fastify"
import { photoIn } from "../photos/access.ts"
import { viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import type { Form } from "../web/forms.ts"
import { mayWith } from "./access.ts"
import { bands } from "./bands.ts"
import { middle } from "./corners.ts"
import { mostCorners } from "./forms.ts"
import { inFull } from "./help.ts"
import { knownLengths } from "./known-lengths.ts"
import { largestOf, numbersOf } from "./numbers.ts"
import { type Crumb, countAhead, findCrumb, listCounts } from "./queries.ts"
import { sizesPlot } from "./sizes-plot.ts"
import { agreementWords, cellsIn } from "./truth.ts"

type Refused = { name: "area" | "ruler" | "count"; form: Form }

/** The photo of a route, which has to show a crumb. */
export async function crumbIn(request: FastifyRequest) {
  const { id } = await photoIn(request.server.db, request)
  const crumb = found(await findCrumb(request.server.db, id))
  return found(crumb.photo.subject === "crumb" ? crumb : undefined)
}

/** What was measured on one photo, how it can be marked, and what people counted on it. */
export async function crumbPage(request: FastifyRequest, refused?: Refused) {
  const { db } = request.server
  const viewer = viewerOf(request)
  const crumb = await crumbIn(request)
  const { photo, bake, measurement } = crumb
  const result = measurement?.result ?? null
  const measured = result?.kind === "measured" ? result : null
  const counts = (await listCounts(db, [photo.id])).map((one) => ({
    ...{ ...one, own: one.userId === viewer.id },
    measured: measured && cellsIn(measured, one.frame),
  }))
  const formOf = (name: Refused["name"], typed: Form["typed"]): Form =>
    refused?.name === name ? refused.form : { typed, errors: {} }
  const area = photo.crumbArea ?? (result && "area" in result ? result.area : middle)
  return {
    ...{ photo, bake, result, measured, bands, counts, inFull },
    whose: bake.userId === viewer.id ? "your bake" : `${bake.name}’s bake`,
    may: await mayWith(db, viewer, request),
    progress: measurement ? await progressOf(request, measurement) : "This crumb is taken up within a minute.",
    numbers: measured && numbersOf(measured),
    largest: measured && largestOf(measured),
    plot: measured && sizesPlot(measured),
    agreement: agreementWords(counts.map((one) => ({ counted: one.count, measured: one.measured }))),
    area: {
      corners: area,
      form: formOf("area", typedCorners(area)),
      suggested: photo.crumbArea === null,
      most: mostCorners,
    },
    ruler: { form: formOf("ruler", typedRuler(photo)), known: knownLengths },
    count: { form: formOf("count", { left: "40", top: "40", right: "60", bottom: "60" }) },
    live: { page: `/photos/${photo.id}/crumb`, version: versionOf(crumb) },
    now: new Date(),
  }
}

/** Another number as soon as anything changed that the page shows of a measurement. */
export const versionOf = ({ bake }: Crumb) => String(bake.version)

async function progressOf({ server }: FastifyRequest, { state, askedAt }: NonNullable<Crumb["measurement"]>) {
  if (state === "running") return "This crumb is being measured now."
  if (state !== "waiting") return ""
  const ahead = await countAhead(server.db, askedAt)
  const after = ahead === 0 ? "it is the next" : ahead === 1 ? "one is before it" : `${ahead} are before it`
  return `This crumb waits to be measured: ${after}. Each takes a second or two.`
}

const percent = (share: number) => String(Number((100 * share).toFixed(1)))

const typedCorners = (area: Crumb["photo"]["crumbArea"] & object) =>
  Object.fromEntries(
    area.flatMap(({ x, y }, i) => [
      [`x${i + 1}`, percent(x)],
      [`y${i + 1}`, percent(y)],
    ]),
  )

function typedRuler({ ruler }: Crumb["photo"]): Form["typed"] {
  const points = ruler ?? { from: { x: 0.3, y: 0.9 }, to: { x: 0.7, y: 0.9 } }
  const known = knownLengths.find(({ key }) => key === ruler?.typed)
  return {
    ...{ fromX: percent(points.from.x), fromY: percent(points.from.y) },
    ...{ toX: percent(points.to.x), toY: percent(points.to.y) },
    known: known?.key ?? "",
    length: ruler && !known ? ruler.typed : "",
  }
}
