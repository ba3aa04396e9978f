import type { CountsAs } from "../dough/ingredients/counts-as.ts"
import type { Role } from "../dough/ingredients/ingredient.ts"
import type { ingredientKinds } from "../schema.ts"

export type Kind = (typeof ingredientKinds)[number]

/** What an instructor may say a thing is, in the words of the form. */
export const kinds: Record<Kind, { words: string; role: Role; countsAs: CountsAs }> = {
  flour: { words: "flour, part of the 100 %", role: "flour", countsAs: "flour" },
  liquid: { words: "a liquid, such as a milk or a juice", role: "liquid", countsAs: "other" },
  fat: { words: "a fat or an oil", role: "fat", countsAs: "other" },
  sugar: { words: "a sugar or a syrup", role: "sugar", countsAs: "other" },
  salt: { words: "salt", role: "salt", countsAs: "salt" },
  yeast: { words: "yeast", role: "leaven", countsAs: "leaven" },
  starter: { words: "a ripe starter, half flour half water", role: "leaven", countsAs: "starter" },
  powder: { words: "a raising powder", role: "leaven", countsAs: "other" },
  egg: { words: "egg", role: "egg", countsAs: "other" },
  inclusion: { words: "something else: seeds, grains, fruit, malt, starch…", role: "inclusion", countsAs: "other" },
}
