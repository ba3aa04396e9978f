import type { Entry } from "./words.ts"

/** Terms as schools and home bakers use them; the meanings are in our own words. */
export const leaven = {
  starter: {
    term: "Starter",
    also: ["mother", "mother culture", "sour"],
    words:
      "Flour and water with wild yeast and lactic bacteria living in it, kept going from bake to bake by feeding. What is built from it for one dough is the levain; many people use the words for both, so it pays to ask.",
    see: ["levain", "discard"],
  },
  levain: {
    term: "Levain",
    also: ["leaven", "sourdough leaven", "sourdough build"],
    words:
      "The portion of sourdough made for one dough: a little starter, fed with flour and water some hours before, and used up in it.",
    see: ["starter", "build", "ripe"],
  },
  build: {
    term: "Build",
    also: ["feeding", "refreshment", "elaboration"],
    words:
      "One feeding of a levain. Its ratio tells the parts in order: 1 : 2 : 2 is one part of starter, two of flour and two of water. The more it is fed, the longer it takes. A levain may go through several.",
    see: ["levain", "inoculation"],
  },
  ripe: {
    term: "Ripe",
    also: ["at its peak", "mature"],
    words:
      "A starter or levain that has risen about as far as it will: domed or just going flat, full of bubbles, smelling fresh and sharp. Earlier it is young and works slowly in a dough, later it has sunk and is sour.",
  },
  discard: {
    term: "Discard",
    words: "What is taken out of a starter before it is fed, so that it does not grow without end. Good in pancakes.",
  },
  hooch: {
    term: "Hooch",
    words: "Liquid standing on a starter that has been hungry for long. Stir it in or pour it off, and feed.",
  },
  preferment: {
    term: "Preferment",
    also: ["pre-ferment"],
    words:
      "Any part of a dough that ferments before the rest is mixed: a levain, poolish, biga, sponge or a piece of old dough.",
    see: ["levain", "poolish", "biga", "sponge", "old-dough", "prefermented-flour"],
  },
  poolish: {
    term: "Poolish",
    words: "A liquid preferment of as much water as flour and a little baker’s yeast.",
  },
  biga: { term: "Biga", words: "A stiff preferment with little water and a little baker’s yeast." },
  sponge: {
    term: "Sponge",
    words:
      "A preferment with baker’s yeast, made with part of a formula’s flour and most of its yeast. Some people call a levain that, too.",
  },
  "old-dough": {
    term: "Old dough",
    also: ["pâte fermentée", "scrap dough"],
    words: "A piece of dough with its salt in, kept from an earlier batch and put into the next.",
  },
} satisfies Record<string, Entry>
