import type { Entry } from "./words.ts"

/** Terms as schools and home bakers use them; the meanings are in our own words. */
export const dough = {
  stage: {
    term: "Stage",
    also: ["step"],
    words: "A stretch of a dough’s day that has a name, a length and a sign by which it is over.",
    see: ["hands-on", "cue"],
  },
  part: {
    term: "Part",
    words:
      "A mix that is made on its own, such as levain, soaker or final dough. One part goes into another; the one that goes into none is the final dough.",
  },
  autolyse: {
    term: "Autolyse",
    words:
      "A rest of flour and water, before salt and leaven are in. The flour takes up the water and the dough becomes easier to stretch.",
    see: ["fermentolyse"],
  },
  fermentolyse: {
    term: "Fermentolyse",
    words: "The same rest as an autolyse, but with the leaven already in, so that fermentation has begun.",
    see: ["autolyse", "bulk"],
  },
  bulk: {
    term: "Bulk",
    also: ["bulk fermentation", "bulk rise", "first rise", "first proof", "primary fermentation", "floor time"],
    words:
      "The rise of the whole dough, from mixing until it is divided or shaped. The time of folding counts as bulk. How far it goes here decides most of what the bread will be.",
    see: ["rise", "fold", "proof"],
  },
  fold: {
    term: "Fold",
    also: ["stretch and fold", "coil fold"],
    words:
      "Strengthening a dough while it rises: an edge is pulled out and laid over, all round, or the middle is lifted so that the ends tuck under themselves.",
  },
  "knock-back": {
    term: "Knock back",
    also: ["punch down", "degas"],
    words: "Pressing gas out of a risen dough, to even it out before it is shaped or rises again.",
  },
  divide: { term: "Divide", also: ["scale off"], words: "Cutting the dough into pieces, usually on a scale." },
  preshape: { term: "Preshape", also: ["rounding"], words: "A first, loose shaping, after which the pieces rest." },
  "bench-rest": {
    term: "Bench rest",
    also: ["intermediate proof"],
    words: "A short rest of shaped or preshaped pieces, until they let themselves be stretched again.",
  },
  proof: {
    term: "Proof",
    also: ["final proof", "prove", "second rise", "tin proof"],
    words: "The rise after shaping, until the bread goes into the oven.",
    see: ["retard", "finger-test", "well-proofed"],
  },
  retard: {
    term: "Retard",
    also: ["cold proof", "cold ferment"],
    words:
      "Slowing a dough by cold, in bulk or shaped. A warm dough goes on working for hours in a fridge, until it is as cold as that.",
    see: ["reference-hours"],
  },
  "hands-on": {
    term: "Hands on",
    words:
      "Minutes of a stage in which somebody has to be there and do something. The rest of it, the dough is by itself.",
  },
  cue: {
    term: "Done when",
    also: ["cue"],
    words:
      "The sign by which a stage is over: how the dough looks, feels or how far it has risen. Where it and the clock disagree, it is right.",
  },
  "earliest-latest": {
    term: "Earliest and latest",
    words:
      "Between these a stage can begin and the bread still be on the table in time: earliest when everything from there on takes its longest, latest when it takes its shortest.",
  },
  windowpane: {
    term: "Windowpane",
    also: ["gluten window"],
    words:
      "A piece of dough is pulled thin between the fingers. When light shines through before it tears, the gluten is developed.",
  },
  "float-test": {
    term: "Float test",
    words:
      "A spoonful of levain in water: when it floats, there is gas in it. One that sinks may be ripe all the same.",
  },
  "finger-test": {
    term: "Finger test",
    also: ["poke test", "finger dent"],
    words:
      "A floured finger is pressed into the dough. Straight back is early; slowly and partly back is about right before the oven; a dent that stays is late. In bulk it means less than after shaping.",
  },
  jiggle: { term: "Jiggle", words: "How a risen dough wobbles when its bowl is shaken. It tells of the gas in it." },
  "jar-sample": {
    term: "Jar sample",
    also: ["aliquot", "straight-sided jar"],
    words:
      "A little of the dough in a straight jar beside it, on whose side the rise can be read. It has to stand as warm as the dough.",
    see: ["rise"],
  },
  slack: { term: "Slack", words: "Said of a dough that is soft and runs apart instead of holding its shape." },
  soaker: { term: "Soaker", words: "Grains, seeds or old bread in water, until they have drunk their fill." },
  scald: {
    term: "Scald",
    also: ["tangzhong", "yudane", "cooked flour paste"],
    words: "Flour cooked or scalded with water or milk, so that it binds more of it and the bread stays soft.",
  },
} satisfies Record<string, Entry>
