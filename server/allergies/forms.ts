import { z } from "zod"
import { type AllergyKey, allergyKeys } from "../dough/ingredients/allergies.ts"
import type { Allergies } from "../schema.ts"
import { maybeWords } from "../web/forms.ts"

/** What can be ticked, each with the words beside its box. */
export const allergyLabels: Record<AllergyKey, string> = {
  "cereals containing gluten": "Gluten: wheat, rye, barley, oats",
  wheat: "Wheat, but not other cereals",
  milk: "Milk, butter, cheese",
  egg: "Egg",
  "tree nuts": "Nuts that grow on trees",
  peanut: "Peanut",
  sesame: "Sesame",
  soy: "Soy",
  fish: "Fish",
  "crustacean shellfish": "Crab, prawn, lobster",
  molluscs: "Mussel, oyster, squid",
  celery: "Celery",
  mustard: "Mustard",
  lupin: "Lupin",
  sulphites: "Sulphites: wine, dried fruit",
}

const isKey = (key: string) => allergyKeys.some((one) => one === key)

/** Ticked whole, as the form asks it; a key that comes twice counts once. */
export const allergiesShape = {
  allergies: z
    .preprocess((ticked) => [ticked ?? []].flat(), z.array(z.string()))
    .refine((keys) => keys.every(isKey), "Tick only what is on the list; the rest goes into your own words.")
    .transform((keys) => [...new Set(keys)]),
  allergyWords: maybeWords(500),
}
export const allergiesForm = z.object(allergiesShape)

type Values = z.output<typeof allergiesForm>
export const allergiesIn = ({ allergies, allergyWords }: Values): Allergies => ({
  ...{ keys: allergies, words: allergyWords },
})

/** As the form has them typed. */
export const typedAllergies = ({ keys, words }: Allergies) => ({ allergies: keys, allergyWords: words })

/** A person's allergies in a line: "sesame; kiwi, raw". */
export const inWords = ({ keys, words }: Allergies) => [keys.join(", "), words].filter(Boolean).join("; ")
