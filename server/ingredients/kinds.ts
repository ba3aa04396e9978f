import type { CountsAs } from "../dough/ingredients/counts-as.ts"
import type { Role } from "../dough/ingredients/ingredient.ts"
import type { ingredientKinds } from "../schema.ts"

export type Kind = (typeof ingredientKinds)[number]

/** What an instructor may say a thing is: in the words of the form, in short, and what follows for a formula. */
export const kinds: Record<Kind, { words: string; short: string; role: Role; countsAs: CountsAs }> = {
  flour: { words: "flour, part of the 100 %", short: "flour", role: "flour", countsAs: "flour" },
  liquid: { words: "a liquid, such as a milk or a juice", short: "liquid", role: "liquid", countsAs: "other" },
  fat: { words: "a fat or an oil", short: "fat", role: "fat", countsAs: "other" },
  sugar: { words: "a sugar or a syrup", short: "sugar or syrup", role: "sugar", countsAs: "other" },
  salt: { words: "salt", short: "salt", role: "salt", countsAs: "salt" },
  yeast: { words: "yeast", short: "yeast", role: "leaven", countsAs: "leaven" },
  starter: { words: "a ripe starter, half flour half water", short: "starter", role: "leaven", countsAs: "starter" },
  powder: { words: "a raising powder", short: "raising powder", role: "leaven", countsAs: "other" },
  egg: { words: "egg", short: "egg", role: "egg", countsAs: "other" },
  inclusion: {
    words: "something else: seeds, grains, fruit, malt, starch…",
    short: "something mixed in",
    role: "inclusion",
    countsAs: "other",
  },
}
