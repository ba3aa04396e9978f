import { and, asc, eq, inArray, ne } from "drizzle-orm"
import { listTaught } from "../classes/queries.ts"
import type { Db } from "../db.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { classes, classIngredients } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { kinds } from "./kinds.ts"

export type ClassIngredient = typeof classIngredients.$inferSelect
type Written = Omit<ClassIngredient, "id" | "classId" | "madeAt">

/** What a class has added to the catalogue of ingredients, by name. */
export async function listOwnIngredients(db: Db, classId: number): Promise<Ingredient[]> {
  return ofClasses(db, [classId])
}

/** What all the classes that somebody teaches have added, by class and by name: what a formula of theirs may use. */
export async function listOwnIngredientsFor(db: Db, viewer: Viewer): Promise<Ingredient[]> {
  return ofClasses(
    db,
    (await listTaught(db, viewer)).map(({ id }) => id),
  )
}

export async function listClassIngredients(db: Db, classId: number): Promise<ClassIngredient[]> {
  return db.query.classIngredients.findMany({
    where: eq(classIngredients.classId, classId),
    orderBy: asc(classIngredients.name),
  })
}

export async function findClassIngredient(db: Db, id: number) {
  return db.query.classIngredients.findFirst({ where: eq(classIngredients.id, id) })
}

/** False when the class has an ingredient of that name already. */
export async function addClassIngredient(db: Db, classId: number, written: Written): Promise<boolean> {
  const rows = await db
    .insert(classIngredients)
    .values({ ...written, classId })
    .onConflictDoNothing()
    .returning({ id: classIngredients.id })
  return rows.length > 0
}

/** False when the class has another ingredient of that name. */
export async function changeClassIngredient(db: Db, { id, classId }: ClassIngredient, written: Written) {
  const others = and(eq(classIngredients.classId, classId), ne(classIngredients.id, id))
  const names = await db.query.classIngredients.findMany({ where: others, columns: { name: true } })
  if (names.some(({ name }) => name.toLowerCase() === written.name.toLowerCase())) return false
  await db.update(classIngredients).set(written).where(eq(classIngredients.id, id))
  return true
}

export async function removeClassIngredient(db: Db, id: number) {
  await db.delete(classIngredients).where(eq(classIngredients.id, id))
}

async function ofClasses(db: Db, classIds: number[]): Promise<Ingredient[]> {
  const rows = await db
    .select({ known: classIngredients, className: classes.name })
    .from(classIngredients)
    .innerJoin(classes, eq(classes.id, classIngredients.classId))
    .where(inArray(classIngredients.classId, classIds))
    .orderBy(asc(classIngredients.classId), asc(classIngredients.name))
  return rows.map(({ known, className }) => asIngredient(known, className))
}

function asIngredient(known: ClassIngredient, className: string): Ingredient {
  const { role, countsAs } = kinds[known.kind]
  return {
    ...{ slug: `own-${known.id}`, name: known.name, role, countsAs, per100g: known.per100g, portions: known.portions },
    allergens: { us: known.usAllergens, eu: known.euAllergens },
    source: `own list of ${className}${known.remark && `: ${known.remark}`}`,
  }
}
