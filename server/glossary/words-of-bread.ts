import type { Entry } from "./words.ts"

/** Terms as schools and home bakers use them; the meanings are in our own words. */
export const bread = {
  underproofed: {
    term: "Underproofed",
    also: ["underproved", "underfermented", "young dough"],
    words:
      "Into the oven before it had fermented enough: often a tight crumb with a few large caves, a burst where none was meant, and a gummy base.",
    see: ["well-proofed", "fools-crumb"],
  },
  "well-proofed": {
    term: "Well proofed",
    also: ["well proved", "fully proofed"],
    words: "Into the oven about when it was meant to be: even crumb, a lively rise in the oven, a cut that opens.",
  },
  overproofed: {
    term: "Overproofed",
    also: ["overproved", "overfermented"],
    words:
      "Into the oven when it could hardly hold its gas any more: flat, pale, little rise in the oven, a dense or torn crumb, often sour.",
    see: ["well-proofed"],
  },
  verdict: {
    term: "Verdict",
    words:
      "How far a dough had fermented when it met the oven, against what was meant: chances of under, well and over, from all that was measured and seen. A wide hill is not sure.",
    see: ["underproofed", "well-proofed", "overproofed"],
  },
  "oven-spring": { term: "Oven spring", words: "Growth in the first minutes of baking, before the crust sets." },
  ear: { term: "Ear", also: ["grigne"], words: "The flap of crust that lifts along a cut." },
  "break-and-shred": { term: "Break and shred", words: "The torn band between side and top of a loaf from a tin." },
  "wild-break": { term: "Wild break", also: ["blowout"], words: "A burst where nobody cut." },
  "shell-top": { term: "Shell top", words: "The upper crust comes off like a lid." },
  "flying-crust": {
    term: "Flying crust",
    also: ["flying top", "keyhole"],
    words: "A hollow right under the upper crust.",
  },
  crumb: {
    term: "Crumb",
    also: ["grain", "open crumb", "tight crumb"],
    words: "The inside of a bread. Open has large holes, tight small ones; neither alone tells of the proof.",
  },
  tunnelling: { term: "Tunnelling", words: "Long holes running through a loaf, often from shaping." },
  "fools-crumb": {
    term: "Fool’s crumb",
    words: "A few caverns in a dense crumb, easily taken for an open one. It usually comes of too little fermentation.",
  },
  "gummy-line": { term: "Gummy line", also: ["wet streak"], words: "A wet, dense layer, often along the base." },
} satisfies Record<string, Entry>
