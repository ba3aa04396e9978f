import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import { type Stage, stageKinds } from "../dough/schedule.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { readDuration } from "../formulas/durations.ts"
import { readable } from "../formulas/page.ts"
import { readFormula, withoutSpareLines } from "../formulas/reading.ts"
import { typedOf } from "../formulas/typed.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import { viewerOf } from "../web/access.ts"
import type { Form } from "../web/forms.ts"
import type { Brought } from "./brought.ts"

type Fields = Record<string, string>
type Errors = Form["errors"]

/** The form under what was understood, as it first is. */
function fieldsOf({ title, content, source, which }: Brought, request: FastifyRequest): Fields {
  const say = sayTo(viewerOf(request))
  const stages = content.stages.flatMap(({ kind, lowMin, highMin }, at) => [
    [`stages.${at}.kind`, kind],
    [`stages.${at}.lasts`, highMin ? say.minutesRange(lowMin, highMin) : ""],
  ])
  const { about, measures } = content
  return { title, about, measures, pasted: source, which: String(which), ...Object.fromEntries(stages) }
}

/** The draft that the form asks for, and one sentence for each field in which something else stands. */
export function draftOf(brought: Brought, typed: Fields, request: FastifyRequest) {
  const first = fieldsOf(brought, request)
  const field = (name: string) => (typed[name] ?? first[name] ?? "").replaceAll("\r\n", "\n")
  const errors: Errors = {}
  const stages = brought.content.stages.map((stage, at): Stage => {
    const kind = stageKinds.find((one) => one === field(`stages.${at}.kind`)) ?? stage.kind
    // a time that was not touched stays exactly what it was, and is not what its words round it to
    if (field(`stages.${at}.lasts`) === first[`stages.${at}.lasts`]) return { ...stage, kind }
    const read = readDuration(field(`stages.${at}.lasts`))
    if ("error" in read) errors[`stages.${at}.lasts`] = read.error
    return "error" in read ? { ...stage, kind } : { ...stage, kind, lowMin: read.value.low, highMin: read.value.high }
  })
  const title = field("title").trim()
  const content = withoutSpareLines({ ...brought.content, about: field("about").trim(), stages })
  return { title, content, errors: { ...errorsOf(title, content, request), ...errors } }
}

/** What the editor would object to. */
function errorsOf(title: string, content: FormulaContent, request: FastifyRequest): Errors {
  const viewer = viewerOf(request)
  return readFormula(typedOf(title, content, sayTo(viewer)), viewer.temperatureUnit).errors
}

/** The page that tells line by line what was understood; `typed` as somebody left it, with `errors` beside their fields. */
export async function understoodPage(
  request: FastifyRequest,
  brought: Brought,
  { typed = fieldsOf(brought, request), errors = {} }: { typed?: Fields; errors?: Errors } = {},
) {
  const viewer = viewerOf(request)
  const own = await listOwnIngredientsFor(request.server.db, viewer)
  const { figures } = readable(brought.content, { own, massUnit: viewer.massUnit })
  const all = { ...lengthsOf(brought, request), ...errors }
  const shown = (name: string) => /^(?:title|about|stages\.\d+\.lasts)$/.test(name)
  const lines = [...figures.parts.flatMap((part) => part.lines), ...figures.finishing]
  return {
    ...{ brought, figures },
    form: { typed, errors: all },
    elsewhere: Object.entries(all).flatMap(([name, words]) =>
      shown(name) ? [] : [`${placeOf(name, brought)}: ${words}`],
    ),
    counted: {
      lines: lines.length,
      stages: brought.content.stages.length,
      open: lines.filter(({ problem }) => problem).length + openStages(brought),
    },
    choices: {
      kinds: stageKinds.map((kind) => [kind, kind] as const),
      measures: Object.entries(measureNames),
      recipes: brought.recipes.map((name, at) => [String(at), name] as const),
    },
  }
}

const openStages = ({ came }: Brought) => came.stages.reduce((sum, { asks }) => sum + asks.length, 0)

/** What is too long is said at once; that a name is missing only when the draft is asked for. */
const lengthsOf = (brought: Brought, request: FastifyRequest): Errors => {
  const { errors } = draftOf(brought, {}, request)
  return Object.fromEntries(Object.entries(errors).filter(([name]) => name !== "title" || brought.title))
}

/** "Levain, line 3" for a field of the formula that has none on this page. */
function placeOf(name: string, { content }: Brought) {
  const [what, at, , line] = name.split(".")
  if (what === "parts")
    return `${content.parts[Number(at)]?.name || "A part"}${line ? `, line ${Number(line) + 1}` : ""}`
  if (what === "stages") return content.stages[Number(at)]?.name || "A stage"
  return what === "finishing" ? `On and around it, line ${Number(at) + 1}` : (what ?? name)
}
