import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { roleIn } from "../classes/access.ts"
import { atHand } from "../dough/bill/at-hand.ts"
import { shoppingOf, type Thing } from "../dough/bill/shopping.ts"
import { thingOf } from "../dough/bill/things.ts"
import { type Figures, workOut } from "../dough/formula/formula.ts"
import { beforeLoss, scaleTo } from "../dough/formula/scaling.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { asMade, type FormulaContent, wayOf } from "../formulas/content.ts"
import type { OwnDay } from "../plans/day.ts"
import { findOwnDay } from "../plans/own-day.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, type Typed, typedIn } from "../web/forms.ts"
import { type Asked, readAsked, usualLoss } from "./forms.ts"
import { ownFormula } from "./own-formula.ts"
import { type Bringing, countStudents, listBringings } from "./queries.ts"
import { inAll, listedThing } from "./words.ts"

/**
 * What to buy for a bake day: for one person, or for the class with who brings what. What was asked stands in the address;
 * `bringing` is the form of somebody who brings something to the class, as it was typed.
 */
export async function shoppingPage(request: FastifyRequest, bringing?: Form) {
  const viewer = viewerOf(request)
  const { db } = request.server
  const day = found(await findOwnDay(db, viewer, idOf(request), new Date()))
  const { bakeDay, kitchen } = day
  const role = await roleIn(db, viewer, bakeDay.classId)
  const query = typedIn(request.query)
  const isForClass = bringing ? true : query.for ? query.for === "class" : role !== "student"
  const students = await countStudents(db, bakeDay.classId)
  const { content, figures, variant, pieces } = isForClass ? classFormula(day, query) : oneFormula(day, viewer.massUnit)

  const first = { people: isForClass ? String(Math.max(students, 1)) : "1", pieces: String(pieces ?? "") }
  const typed: Typed = {
    ...{ ...first, loss: usualLoss[isForClass ? "class" : "me"] },
    ...query,
    ...(isForClass ? {} : { people: "1" }),
    variant,
  }
  const { values, form } = readAsked(typed, pieces !== null)
  const known = { own: bakeDay.ownIngredients }
  const scaled = values ? scaledFor({ content, figures, ...known }, values) : { figures, cannot: undefined }
  const { buy, ready, water } = shoppingOf(content, scaled.figures, known)
  const say = sayTo(viewer)
  const shopper = { unit: viewer.massUnit, say, measures: content.measures, ...known }
  const bringings = isForClass ? await listBringings(db, bakeDay.id) : []
  const had = isForClass ? new Set<string>() : atHand(kitchen.flours ?? "", buy, known.own)
  const mayTakeOff = (one: Bringing) => one.userId === viewer.id || role === "instructor"
  const listed = (thing: Thing) => ({
    ...listedThing(thing, shopper),
    has: had.has(thing.id),
    brought: bringings
      .filter((one) => thingOf(one.thing, known.own) === thing.id)
      .map((one) => ({ ...one, isMine: one.userId === viewer.id, mayTakeOff: mayTakeOff(one) })),
  })
  const things = { buy: buy.map(listed), ready: ready.map(listed) }
  const isListed = new Set([...things.buy, ...things.ready].map(({ id }) => id))
  return {
    ...{
      bakeDay,
      role: role ?? "student",
      isForClass,
      students,
      form,
      bringing: bringing ?? blank,
      asked: values ?? null,
      ...things,
    },
    cannot: scaled.cannot ?? null,
    hasPieces: pieces !== null,
    way: wayOf(bakeDay.content, variant) ?? null,
    ways: bakeDay.content.variants,
    water: water ? { needed: water.g ? inAll(water.g, shopper) : null } : null,
    others: bringings
      .filter((one) => !isListed.has(thingOf(one.thing, known.own)))
      .map((one) => ({ ...one, isMine: one.userId === viewer.id, mayTakeOff: mayTakeOff(one) })),
    dough: values && scaled.figures.dough ? inAll(scaled.figures.dough, shopper) : null,
    query: classQuery(query),
  }
}

/** What of the address a form of the class's list sends along, so that the list afterwards is the same. */
export function classQuery({ people, pieces, loss, variant }: Typed): string {
  const all = { for: "class", people, pieces, loss, variant }
  const told = Object.entries(all).filter((one): one is [string, string] => one[1] !== undefined)
  return new URLSearchParams(told).toString()
}

function oneFormula(day: OwnDay, massUnit: "g" | "oz") {
  const { content, pieces, figures } = ownFormula(day, massUnit)
  // the address asks for pieces of the formula, so its own figures are scaled and not theirs again
  const base = pieces ? workOut(content, { measures: content.measures, own: day.bakeDay.ownIngredients }) : figures
  return { content, figures: base, variant: day.variant, pieces: pieces?.count ?? null }
}

function classFormula({ bakeDay }: OwnDay, { variant = "" }: Typed) {
  const content = asMade(bakeDay.content, variant)
  const figures = workOut(content, { measures: content.measures, own: bakeDay.ownIngredients })
  return { content, figures, variant, pieces: figures.pieces?.count ?? null }
}

/** The formula for so many people; as it is, with why, where nothing gives it a mass. */
function scaledFor(
  { content, figures, own }: { content: FormulaContent; figures: Figures; own: Ingredient[] },
  { people, pieces, loss }: Asked,
): { figures: Figures; cannot?: string } {
  const each = pieces !== null && figures.pieces ? pieces / figures.pieces.count : 1
  const wish = { by: "times" as const, times: beforeLoss(people * each, loss) }
  const scaled = scaleTo(content, wish, { measures: content.measures, own })
  return "cannot" in scaled ? { figures, cannot: scaled.cannot } : scaled
}
