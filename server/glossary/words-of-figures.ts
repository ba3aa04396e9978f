import type { Entry } from "./words.ts"

/** Terms as schools and home bakers use them; the meanings are in our own words, and the model’s words are ours. */
export const figures = {
  "bakers-percentage": {
    term: "Baker’s percentage",
    also: ["baker’s percent", "of the flour"],
    words:
      "Each weight as a share of all the flour in a dough, that in the levain included. Flour together is 100 %, so the whole comes to more.",
  },
  hydration: {
    term: "Hydration",
    words:
      "Water as a share of all flour, with what the levain brings of both. Milk, egg, butter and honey bring water too; with them in, it is called hydration with all water.",
    see: ["bakers-percentage"],
  },
  "prefermented-flour": {
    term: "Prefermented flour",
    also: ["PFF", "pre-fermented flour"],
    words:
      "The share of all the flour that comes in with a preferment. Not the same as inoculation: 20 % ripe starter of equal flour and water, by weight on the flour, is about 10 % prefermented flour.",
    see: ["inoculation", "preferment"],
  },
  inoculation: {
    term: "Inoculation",
    also: ["seed percentage", "seeded at"],
    words:
      "The weight of ripe starter over the weight of the fresh flour that it is mixed with. In many notes it is said of the whole levain, and in some of its flour alone: ask which.",
    see: ["prefermented-flour"],
  },
  "hold-back": {
    term: "Hold back",
    also: ["held back", "bassinage"],
    words:
      "Water that is not poured in at first. It goes in bit by bit when the dough can take it, or stays in the jug: flours drink differently.",
  },
  "dough-temperature": {
    term: "Dough temperature to aim for",
    also: ["DDT", "TDT", "desired dough temperature", "target dough temperature"],
    words: "How warm the dough is meant to be when it has been mixed. The water is what brings it there.",
    see: ["finished-temperature", "friction"],
  },
  "finished-temperature": {
    term: "Finished dough temperature",
    also: ["FDT", "final dough temperature"],
    words: "How warm it turned out, measured in its middle after mixing.",
  },
  friction: {
    term: "Friction",
    also: ["friction factor"],
    words: "The degrees by which kneading warms a dough: next to none by hand, several in a machine.",
  },
  "temperature-factor": {
    term: "Base temperature",
    also: ["total temperature factor", "TTF"],
    words: "Flour, room, water and friction in degrees, added up: a sum by which schools find the water’s temperature.",
    see: ["dough-temperature", "friction"],
  },
  rise: {
    term: "Rise",
    also: ["target rise", "volume increase"],
    words:
      "What a dough has gained on its starting volume. +70 % is seven tenths more; “170 % of the start” is the same thing said otherwise. The target is where the instructor means it to be shaped.",
    see: ["jar-sample", "bulk"],
  },
  "reference-hours": {
    term: "Reference hours",
    also: ["ref h", "hours at the reference temperature"],
    words:
      "Fermentation counted so that warm and cold kitchens can be compared: one is what the dough would do in an hour at 24 °C (75 °F). An hour in a warmer dough is more than one, in a fridge a small part of one.",
    see: ["rate", "retard"],
  },
  rate: {
    term: "Rate",
    also: ["pace"],
    words: "How fast a dough ferments at its own temperature, 1 at the reference temperature.",
    see: ["reference-hours"],
  },
  lead: {
    term: "Ahead and behind",
    also: ["lead"],
    words: "By how many minutes, at the plan’s own pace, a dough is further than it was meant to be, or not as far.",
  },
  known: {
    term: "Measured, assumed, felt",
    words:
      "How a number is known: read from a thermometer or a scale, taken for granted, or judged by hand and eye. Each is welcome; what rests on it is only as sure.",
  },
  pieces: {
    term: "Pieces",
    also: ["scaling weight"],
    words: "How many loaves or rolls a dough makes, and what each weighs unbaked.",
  },
  waste: {
    term: "Stays in its jar",
    also: ["process loss"],
    words:
      "What sticks to jars, bowls and hands and never reaches the dough. Levain made and levain used are two figures.",
  },
} satisfies Record<string, Entry>
