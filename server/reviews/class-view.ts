import type { BakeDay } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import { listBakesOf, type TableBake } from "../table/queries.ts"
import { layRow, type Row } from "../table/row.ts"
import type { Figures } from "./class-middle.ts"

export type Laid = { bake: TableBake; row: Row }

/**
 * The bakes of a bake day as everybody in the class sees them, whoever asks: what is not shared, and photos for the
 * instructors only, are not among them. All that a review says comes from here.
 */
export async function layForClass(db: Db, bakeDay: BakeDay, now: Date): Promise<Laid[]> {
  return layAs(await listBakesOf(db, bakeDay.id, { viewer: nobody, role: "student" }), bakeDay, now)
}
const nobody = { id: 0 }

export function layAs(bakes: TableBake[], bakeDay: BakeDay, now: Date): Laid[] {
  return bakes.map((bake) => ({ bake, row: layRow(bake, bake.content.stages, bakeDay, now, bake.culture) }))
}

export const figuresOf = ({ row: { fermented, warmth, rise, verdict } }: Laid): Figures => ({
  hours: fermented?.soFar ? undefined : fermented?.hours,
  doughC: warmth?.from === "dough" ? (warmth.meanC ?? warmth.last.c) : undefined,
  rise: rise?.share,
  call: verdict.call,
})

/** "Bea", or "Bea, bake 2" for her second that the class sees. */
export const namedAs = ({ name, nth }: { name: string; nth: number }) => (nth > 1 ? `${name}, bake ${nth}` : name)
