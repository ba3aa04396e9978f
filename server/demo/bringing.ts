import { bring } from "../bill/queries.ts"
import type { Db } from "../db.ts"

/** For the second bake day, which the class bakes together, some have said what they bring. */
export async function addBringings(db: Db, { bakeDayId, ids }: { bakeDayId: number; ids: Map<string, number> }) {
  const said = [
    { who: "amparo", thing: "rolled oats", amount: "" },
    { who: "gregor", thing: "strong white flour", amount: "a 5 kg sack" },
    { who: "delphine", thing: "strong white flour", amount: "the rest" },
    { who: "ivo", thing: "ripe starter", amount: "200 g, fed in the morning" },
    { who: "lioba", thing: "honey", amount: "" },
  ]
  for (const { who, thing, amount } of said) await bring(db, { bakeDayId, userId: ids.get(who)!, thing, amount })
}
