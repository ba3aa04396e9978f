import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { panMeasures, panShapes } from "../dough/formula/pan-measures.ts"
import { shapedForTin } from "../dough/formula/pans.ts"
import { type Scaled, scaleFactor, scaleTo, usualBakeLoss, type Wish } from "../dough/formula/scaling.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { asked, readable } from "../formulas/page.ts"
import type { Subject } from "../formulas/subject.ts"
import { viewerOf } from "../web/access.ts"
import type { Form } from "../web/forms.ts"
import { type Typed, typedIn } from "../web/forms.ts"
import { drawLayout, layOut } from "./drawing.ts"
import { chosenIn, firstTyped, readFit, readWish, scaleIn, wishes } from "./forms.ts"
import { scaleName, scales } from "./scales.ts"
import { shapeOf } from "./typed.ts"
import { type Reader, shownOn } from "./weighing.ts"
import { weighingList } from "./weighing-list.ts"
import { makes, starterFor, takenForGranted, timesTheFormula } from "./words.ts"

/** The page on which anybody brings a formula to a size. What was asked stands in its address and is kept nowhere. */
export function scalingPage(request: FastifyRequest, { title, content: written, own, url }: Subject) {
  const viewer = viewerOf(request)
  const unit = viewer.massUnit
  const { content, figures, ways, way, asWay } = readable(written, { own, ...asked(request) })
  const typed: Typed = { ...firstTyped(figures, unit), ...typedIn(request.query), variant: way?.key ?? "" }
  const scale = scaleIn(typed, unit)
  const reader = { scale, unit, say: sayTo(viewer), measures: viewer.measures, own }

  const { values: wish, form: ofWish } = readWish(typed, unit)
  const scaled = wish && scaleTo(content, wish, { measures: content.measures, own, massUnit: unit })
  const made =
    scaled && "figures" in scaled
      ? madeOf(content, scaled, { wish, factor: scaleFactor(wish, figures), ...reader })
      : null
  const fit = fitOf(typed, scaled && "figures" in scaled ? scaled.figures.pieces?.count : undefined)
  const { errors, asks } = forgiving(ofWish)
  return {
    ...{ title, url, ways, way, asWay, made, unit, laid: fit.laid },
    form: { typed, errors: { ...errors, ...fit.form.errors } },
    notYet: scaled && "cannot" in scaled ? scaled.cannot : (asks ?? wrong),
    chosen: chosenIn(typed),
    choices: {
      wishes,
      scales: Object.entries(scales).map(([key, one]) => [key, `every ${scaleName(one)}`]),
      shapes: panShapes,
      measuresOf: measuresFor(typed),
    },
    usual: { bakeLoss: usualBakeLoss, full: shapedForTin },
  }
}

const wrong = "Something that was typed cannot be read; beside it stands why."
const measuresFor = (typed: Typed) => (at: string) => {
  const shape = shapeOf(typed[`${at}.shape`])
  return `${panMeasures[shape]}: ${examples[shape]}`
}
const examples = { round: "26/24 × 5 cm", square: "23 × 5 cm", rectangle: "30 × 10/28 × 9 × 7 cm" }

function madeOf(
  content: FormulaContent,
  { figures, says }: Scaled,
  { wish, factor, ...reader }: Omit<Reader, "people"> & { wish: Wish; factor: number | undefined },
) {
  const people = wish.by === "class" ? wish.people : undefined
  const { say } = reader
  return {
    dough: figures.dough ?? null,
    flour: figures.flour ?? null,
    people: people ?? null,
    scaleShows: scaleName(reader.scale),
    makes: [...makes(figures, wish, say), ...timesTheFormula(factor)],
    list: weighingList(content, figures, { ...reader, people }),
    starter: starterFor(figures, people, (g) => shownOn(g, reader) ?? say.massRange(g)),
    says: [...takenForGranted(wish, figures, say), ...says],
  }
}

/** How many pieces fit into the pan, drawn, and how many such pans the dough's pieces need. */
function fitOf(typed: Typed, needed: number | undefined) {
  const { values, form } = readFit(typed)
  const laid = values && layOut(values)
  if (values && !laid) form.errors["fit.piece"] = "These would be more than 40 side by side; check the units."
  if (!values || !laid) return { form, laid: null }
  const { count, caution } = laid
  const pans = count && needed ? Math.ceil(needed / count) : null
  return { form, laid: { count, caution, needed: needed ?? null, pans, drawing: drawLayout(values, laid) } }
}

/** A field of the wish that nobody has filled in yet is asked for, and not told that it is wrong. */
function forgiving({ typed, errors }: Form): { errors: Form["errors"]; asks?: string } {
  const isBlank = (field: string) => !String(typed[field] ?? "").trim()
  const wrongOnes = Object.entries(errors).filter(([field]) => !isBlank(field))
  return { errors: Object.fromEntries(wrongOnes), asks: wrongOnes.length ? undefined : Object.values(errors)[0] }
}
