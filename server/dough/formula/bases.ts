import type { PartFigures, WholeFigures } from "./formula.ts"

type Said = { name: string; of: string }

/** What each figure of the whole is called and what it is of, so that no percentage stands without its base. */
export const bases: Record<keyof WholeFigures, Said> = {
  dough: { name: "Dough", of: "everything that reaches the final dough, finishing left out" },
  flour: { name: "Flour", of: "all flour that reaches the final dough, half of each starter included" },
  water: { name: "Water", of: "lines that count as water, and half of each starter" },
  wholeWater: {
    name: "All water",
    of: "water, and what is in milk, eggs, butter, honey and the like; not what is in flour",
  },
  formulaTotal: { name: "Formula total", of: "all lines together, of all flour" },
  hydration: { name: "Hydration as written", of: "water and half of each starter, of all flour" },
  wholeHydration: {
    name: "Hydration with all water",
    of: "the water of every line but flour, of all flour",
  },
  salt: { name: "Salt", of: "lines that count as salt, of all flour" },
  wholeSalt: { name: "All salt", of: "salt, and what is in butter, cheese, milk and the like, of all flour" },
  sugar: { name: "Sugar", of: "the sugar in every line but flour, of all flour" },
  fat: { name: "Fat", of: "the fat in every line but flour, of all flour" },
  flourProtein: {
    name: "Protein of the flour",
    of: "the protein in the flour lines, of their mass; a starter's flour left out",
  },
  prefermented: {
    name: "Prefermented flour",
    of: "flour that ferments before the final dough, of all flour",
  },
  inoculation: {
    name: "Inoculation",
    of: "ripe starter and fermented parts as they go into the dough, flour and water together, of all flour",
  },
}

/** The same within one part, where several differ: a part is reckoned on the flour that is fresh in it. */
export const basesInPart: Record<keyof Omit<PartFigures, "key" | "lines" | "problem">, Said> = {
  made: { name: "Made", of: "everything in the part, with what other parts bring into it" },
  used: { name: "Used", of: "what goes on, without what stays in its jar" },
  stays: { name: "Stays in the jar", of: "what does not go on, of what is made" },
  flour: { name: "Flour", of: "all flour in the part, half of each starter included" },
  freshFlour: { name: "Fresh flour", of: "its flour lines, and those of soakers and the like that go into it" },
  formulaTotal: { name: "Part total", of: "everything in the part, of the fresh flour in it" },
  hydration: { name: "Hydration", of: "water and half of each starter in the part, of all flour in it" },
  wholeHydration: {
    name: "Hydration with all water",
    of: "the water of every line but flour, of all flour in the part",
  },
  inoculation: {
    name: "Inoculation",
    of: "ripe starter and fermented parts, flour and water together, of the fresh flour in the part",
  },
}
