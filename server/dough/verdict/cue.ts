import type { ExplanationKey } from "./explanations.ts"

/** When in the making it shows. */
export type Moment = "levain" | "dough" | "shaping" | "proof" | "oven" | "crust" | "crumb" | "taste" | "afterwards"
export const moments: Moment[] = [
  "levain",
  "dough",
  "shaping",
  "proof",
  "oven",
  "crust",
  "crumb",
  "taste",
  "afterwards",
]

/**
 * How well those who teach or write agree. high: a school or trade text and an independent teacher, network of bakers or
 * flour company; medium: one such text, or several practitioners; low: one voice, or voices that differ. certain: by what
 * the words mean, as a dough that did not rise is not past its rise.
 */
export type Confidence = "certain" | "high" | "medium" | "low"
export type Points = { readonly [key in ExplanationKey]?: Confidence }

/**
 * Something seen, felt or tasted. `points`: what may bring it about, the likeliest with the confidence of its source, what
 * it is mistaken for one step lower; `against`: what makes it rare. Cues of one `group` tell the same thing in other words
 * and count little after the first. `cause` true: not a sign but the cause itself that was seen, which is seldom told when it
 * was not so. `far` true: only a dough that is far from ready looks so. `alone` false: it points both ways, and decides nothing, not even with others of its
 * kind. Without `vessels` it is seen everywhere; `inTin` holds there in place of `points`.
 */
export type Cue = {
  readonly label: string
  readonly moment: Moment
  readonly group: string
  readonly points: Points
  readonly against?: Points
  readonly alone?: false
  readonly cause?: true
  readonly far?: true
  readonly vessels?: readonly Vessel[]
  readonly inTin?: Points
  readonly source: string
}
export type Vessel = "tin" | "hearth" | "pot"

/** Where the cues come from. What a cue is mistaken for is partly our own judgement. */
export const from = {
  school: "San Francisco Baking Institute, Proofing (sfbi.com/proofing.html)",
  schoolAndTeacher: "San Francisco Baking Institute, Proofing (sfbi.com/proofing.html); vegpatchkitchen.co.uk",
  framework: "The Sourdough Framework, an open book: crumb structures (github.com/hendricius/the-sourdough-framework)",
  caverns: "The Sourdough Framework; pastryartsmag.com, Crumb clues; thefreshloaf.com/node/61053",
  tinSplit: "bread-bakers.com v101n022; kingarthurbaking.com, comment 428461; communityloaves.org",
  network: "Community Loaves, a network of home bakers (communityloaves.org)",
  rye: "breadmatters.com, on holes under the crust of a rye",
  flyingTop: "yourarticlelibrary.com, 10 common faults; breadmatters.com, on holes under the crust of a rye",
  dairyCollege: "Dairy and bakery e-course (ecoursesonline.iasri.res.in), on crumb",
  gummy: "Practitioners' answers; core temperatures: kingarthurbaking.com, comment 271241",
  deck: "A training deck on bread faults (slideshare.net/SunilKumar148)",
  trade: "A translated trade text, seen as a copy",
  lowe: "B. Lowe, Experimental Cookery (chestofbooks.com)",
  cooling: "kingarthurbaking.com, comment 110076",
  doubling: "chainbaker.com, over- and underproofing; youkneadsourdough.co.nz: targets from 25 to 100 %",
  sour: "rec.food.sourdough FAQ no. 47: over-mature sours, and what they do",
  practice: "common practice, no published source",
  told: "bakers' own accounts in public; our own judgement of them",
  own: "our own judgement",
} as const
