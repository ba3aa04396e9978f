import type { ExplanationKey } from "../../server/dough/verdict/explanations.ts"
import type { BakeFacts, ToldStage } from "../../server/dough/verdict/facts.ts"
import type { ToldDiagnosis } from "./told-shape.ts"

/**
 * Bakes that their bakers told in public, with the diagnosis that was agreed on there; the facts only, in our own words. Seen
 * as notes that were taken from those pages, not checked against them again.
 */
export const toldDiagnoses: ToldDiagnosis[] = [
  ...told("over-02", "country sourdough", "https://hundredloaves.com/eight", [
    ["overproofed"],
    {
      culture: "sourdough",
      leavenShare: 0.068,
      hydration: range(1),
      stages: [stage("levain", 780), stage("rest", 20), stage("rest", 10), stage("bulk", 630)],
      changes: [{ kind: "salt left out", words: "The salt was forgotten" }],
      cues: ["giant-bubbles", "sticky-dough"],
    },
  ]),
  ...told("over-03", "40 % whole wheat sourdough", "https://hundredloaves.com/eighteen", [
    ["levain over-ripe"],
    {
      culture: "sourdough",
      vessel: "pot",
      stages: [
        { ...stage("levain", 1380), c: range(26.7), of: "room", known: "assumed" },
        stage("rest", 60),
        { kind: "bulk" },
        stage("proof", 60),
      ],
      cues: ["levain-runny", "slack-at-the-end", "spread-when-turned-out", "little-rise"],
    },
  ]),
  ...told("over-04", "San Francisco style sourdough", "https://web.thefreshloaf.com/blog/mag314", [
    ["overproofed"],
    {
      culture: "sourdough",
      leavenShare: 0.2,
      hydration: range(0.63),
      vessel: "pot",
      stages: [{ kind: "levain" }, { kind: "proof" }],
      cues: ["warmer-than-usual", "deflated", "some-spring", "flat", "wrinkled", "tastes-good"],
    },
  ]),
  ...told("over-06", "pizza", "https://huggingface.co/datasets/breadlicker45/bread-qa-updated", [
    ["overproofed"],
    {
      culture: "sourdough",
      vessel: "hearth",
      stages: [{ ...stage("bulk", 720), c: range(24.4), of: "room", known: "measured" }],
      finger: { found: "slowly-partly", at: "bulk" },
      cues: ["waited-for-double", "stickier-with-time", "takes-no-skin"],
    },
  ]),
  ...told(
    "over-07",
    "no-knead loaf with levain and yeast",
    "https://livingsmallblog.com/2011/09/19/first-good-bread-of-the-fall/",
    [
      ["overproofed"],
      {
        culture: "sourdough",
        stages: [{ kind: "bulk", c: range(32.2), of: "room", known: "assumed" }],
        cues: ["warmer-than-usual", "takes-no-skin"],
      },
      "in the heat",
    ],
    [
      ["nothing wrong"],
      {
        culture: "sourdough",
        stages: [{ kind: "bulk", c: range(18.3, 21.1), of: "room", known: "felt" }],
        cues: ["pushes-back"],
      },
      "in cool weeks",
    ],
  ),
  ...told(
    "over-08",
    "half whole wheat sourdough",
    "https://gist.github.com/Nargonath/dc388e12cf22827fe4db4b649f9c65ef",
    [
      ["overproofed"],
      {
        culture: "sourdough",
        leavenShare: 0.143,
        hydration: range(0.757),
        salt: range(0.0171),
        vessel: "pot",
        stages: [stage("levain", 240), stage("rest", 60), { ...stage("retard", 2880, 3600), of: "fridge" }],
        cues: ["takes-no-skin"],
      },
    ],
  ),
  ...told(
    "over-10",
    "sourdough, two loaves of one dough",
    "https://dawghousebakery.com/2021/09/10/ugh-ive-got-to-listen-to-my-instincts/",
    [
      ["nothing wrong"],
      {
        culture: "sourdough",
        stages: [{ kind: "retard", c: range(5.6), of: "fridge", known: "measured" }],
        cues: ["turned-out-well"],
      },
      "baked in the morning",
    ],
    [
      ["overproofed"],
      {
        culture: "sourdough",
        vessel: "hearth",
        stages: [{ kind: "retard", c: range(5.6), of: "fridge", known: "measured" }],
        cues: ["stood-too-long", "spread-when-turned-out", "flat", "sooner-was-better"],
      },
      "baked after work",
    ],
  ),
  ...told(
    "over-11",
    "sourdough boules for a bread club",
    "https://heightsbakingco.com/blog/2018/1/9/when-good-dough-goes-bad?format=amp",
    [
      ["nothing wrong"],
      { culture: "sourdough", stages: [{ kind: "proof" }], cues: ["turned-out-well"] },
      "the first loaves",
    ],
    [
      ["overproofed"],
      {
        culture: "sourdough",
        vessel: "hearth",
        stages: [{ kind: "proof" }, { kind: "wait" }],
        cues: ["waited-for-the-oven", "sticky-dough", "ran-over-the-edge", "flat", "lumpy", "sooner-was-better"],
      },
      "the last",
    ],
  ),
  ...told(
    "over-13",
    "half whole grain sourdough",
    "https://forum.breadtopia.com/t/spelt-red-fife-and-rye-sourdough-no-2/12872",
    [
      ["underproofed"],
      {
        culture: "sourdough",
        stages: [{ kind: "bulk" }, stage("rest", 30), { kind: "retard", of: "fridge" }],
        cues: ["dense", "tall"],
      },
      "bake 1",
    ],
    [
      ["overproofed"],
      {
        culture: "sourdough",
        hydration: range(0.84),
        stages: [{ kind: "bulk" }, stage("rest", 30), { kind: "retard", of: "fridge" }],
        cues: ["open-and-even", "some-spring"],
      },
      "bake 2, half an hour longer and wetter",
    ],
  ),
  ...told("over-14", "tin sourdough", "https://gullygrove.blogspot.com/2016/11/summer-sourdough.html", [
    ["overproofed"],
    {
      culture: "sourdough",
      vessel: "tin",
      stages: [{ kind: "bulk" }, { kind: "proof" }],
      cues: ["warmer-than-usual", "stood-too-long", "skinned-over", "sticky-dough", "takes-no-skin", "sunken-top"],
    },
  ]),
  ...told(
    "over-16",
    "enriched rolls",
    "http://punchbowl-friends.blogspot.com/2010/04/day-16-refrigerator-rolls-attempt-1.html",
    [
      ["overproofed"],
      {
        culture: "baker's yeast",
        vessel: "tin",
        stages: [{ ...stage("retard", 5760), of: "fridge" }, stage("proof", 35, 38)],
        cues: ["fell", "flat", "tastes-good"],
      },
    ],
  ),
  ...told("over-17", "challah, a two-layer braid", "http://kozelsky.blogspot.com/2010/03/bba-challenge-challa.html", [
    ["overproofed"],
    {
      culture: "baker's yeast",
      stages: [
        { kind: "bulk", c: range(26.7), of: "dough", known: "measured" },
        { kind: "retard", of: "fridge" },
      ],
      cues: ["windowpane", "fell", "shape-blurred", "baked-cold"],
    },
  ]),
  ...told(
    "under-01",
    "flat hearth bread, sourdough",
    "https://github.com/misoboute/baking/blob/master/Sourdough%20Bread%207%20-%2020-07-12.md",
    [
      ["underproofed"],
      {
        ...hearthBread(255),
        rise: { share: 0.3, known: "measured" },
      },
    ],
    [["overproofed"], hearthBread(510), "the next one, twice the time"],
  ),
  ...told(
    "under-03",
    "country sourdough",
    "http://bakingartisanbread.blogspot.com/2017/09/tartine-country-bread.html",
    [
      ["underproofed"],
      {
        culture: "sourdough",
        leavenShare: 0.091,
        hydration: range(0.727, 0.773),
        stages: [
          { ...stage("bulk", 210), c: range(25, 26.7), of: "dough", known: "measured" },
          { ...stage("proof", 100), c: range(26.1), of: "room", known: "measured" },
        ],
        rise: { share: 0.15, known: "felt" },
        cues: ["airy", "great-spring"],
      },
    ],
  ),
  ...told("under-04", "30 % brown sourdough with sesame", "http://bakingartisanbread.blogspot.com/2014/", [
    ["underproofed"],
    {
      culture: "sourdough",
      stages: [
        { ...stage("bulk", 570), c: range(27.8), of: "dough", known: "measured" },
        { ...stage("proof", 120), c: range(4), of: "fridge", known: "assumed" },
      ],
      rise: { share: 1, known: "felt", target: 1.5 },
      cues: ["cut-short", "one-big-hole"],
    },
  ]),
  ...told(
    "under-05",
    "65 % whole wheat sourdough",
    "https://huggingface.co/datasets/breadlicker45/bread-qa/viewer/default/train?p=11",
    [
      ["underproofed"],
      {
        culture: "sourdough",
        leavenShare: 0.07,
        hydration: range(0.74),
        salt: range(0.0186),
        stages: [
          { ...stage("rest", 40), c: range(20.6), of: "room", known: "measured" },
          { ...stage("bulk", 330, 360), c: range(20.6), of: "room", known: "measured" },
          { ...stage("wait", 30), c: range(20.6), of: "room", known: "measured" },
          { ...stage("retard", 840), of: "fridge" },
        ],
        cues: ["levain-lively", "dense-middle", "caverns", "tastes-good"],
      },
    ],
  ),
  ...told(
    "under-06",
    "rye",
    "https://www.thefreshloaf.com/node/79462/low-humidity-high-humility",
    [
      ["underproofed"],
      {
        culture: "sourdough",
        hydration: range(0.85),
        stages: [{ ...stage("bulk", 180), c: range(21.1), of: "room", known: "measured" }],
        cues: ["little-rise", "dense", "dry-crumb", "later-was-better", "more-leaven-was-better"],
      },
      "breads 1 and 2",
    ],
    [
      ["nothing wrong"],
      {
        culture: "sourdough",
        hydration: range(0.85),
        stages: [{ ...stage("bulk", 480), c: range(21.1), of: "room", known: "measured" }],
        cues: ["turned-out-well"],
      },
      "bread 3",
    ],
  ),
  ...told("under-09", "boule", "https://alex.seeholzer.de/2017/11/sourdough-boule-fridge-proofed/", [
    ["underproofed"],
    {
      culture: "sourdough",
      vessel: "pot",
      stages: [stage("bulk", 120), { ...stage("retard", 1080), of: "fridge" }, stage("wait", 60)],
      cues: ["great-spring", "tastes-good", "dense-middle"],
    },
  ]),
  ...told("under-11", "buttermilk rolls", "https://www.thefreshloaf.com/node/4773/cold-weather-baking#comment-24115", [
    ["underproofed"],
    {
      culture: "baker's yeast",
      stages: [{ kind: "bulk", c: range(18.3), of: "room", known: "measured" }],
      cues: ["no-rise", "cold-liquid", "colder-than-usual"],
    },
  ]),
  ...told("under-12", "sourdough", "https://huggingface.co/datasets/breadlicker45/bread-qa/viewer/default/train?p=9", [
    ["levain weak"],
    {
      culture: "sourdough",
      salt: range(0.025),
      stages: [{ kind: "rest" }, { kind: "bulk", c: range(23), of: "room", known: "measured" }],
      cues: ["levain-young", "levain-lively", "little-rise", "more-leaven-was-better"],
    },
  ]),
  ...told("under-14", "rolls", "http://thatssojenn.com/2013/05/14/one-hour-dinner-rolls-or-overnight-lunch-biscuits", [
    ["underproofed"],
    {
      culture: "baker's yeast",
      stages: [{ kind: "retard", of: "fridge" }],
      cues: ["cut-short", "unchanged-in-the-fridge", "flat", "dense", "tastes-good"],
    },
  ]),
  ...told("under-15", "sweetened egg loaf", "http://www.thefreshloaf.com/node/6329/all-those-extra-ingredients", [
    ["underproofed", "salt short"],
    {
      culture: "baker's yeast",
      hydration: range(0.48, 0.65),
      salt: range(0.012, 0.014),
      vessel: "hearth",
      stages: [{ kind: "bulk" }, { kind: "proof" }],
      cues: ["burst", "great-spring"],
    },
  ]),
  ...told(
    "other-02",
    "white sourdough boule",
    "https://github.com/misoboute/baking/blob/master/Sourdough%20Bread%201%20-%2020-05-17.md",
    [
      ["handling"],
      {
        culture: "sourdough",
        leavenShare: 0.094,
        hydration: range(0.692),
        salt: range(0.0171),
        stages: [
          stage("levain", 240, 300),
          stage("rest", 60),
          { ...stage("bulk", 240), c: range(25), of: "room", known: "assumed" },
          stage("wait", 30),
          stage("proof", 180),
        ],
        cues: ["rose-well", "sticky-dough", "flour-at-the-bench", "torn-at-the-bench", "skin-cracked"],
      },
    ],
  ),
  ...told("other-03", "country sourdough", "http://www.hungryshots.com/2015/07/overnight-country-bread.html", [
    ["too wet"],
    {
      culture: "sourdough",
      leavenShare: 0.144,
      hydration: range(0.784),
      vessel: "pot",
      stages: [{ kind: "levain" }, stage("bulk", 90, 120), { kind: "bulk" }],
      changes: [
        { kind: "flour added", words: "200 g of flour worked in while shaping" },
        { kind: "other flour", words: "European flour in an American formula" },
      ],
      cues: ["wet-from-the-mix", "stickier-with-time", "some-spring", "sharply-sour"],
    },
  ]),
  ...told(
    "other-05",
    "bread baked in pots",
    "https://life-improver.com/cooking/baking-delaying-fermentation-in-refrigerator/",
    [
      ["cold oven"],
      {
        vessel: "pot",
        stages: [{ ...stage("retard", 420), of: "fridge" }],
        cues: ["baked-cold", "oven-not-hot", "no-spring", "dense"],
      },
    ],
  ),
  ...told("other-07", "sourdough sandwich loaves", "https://bowlingsblog.blogspot.com/2009/05", [
    ["salt short"],
    {
      culture: "sourdough",
      vessel: "tin",
      stages: [{ kind: "bulk" }],
      changes: [{ kind: "salt left out", words: "The salt was forgotten" }],
      cues: ["rose-hugely", "bland"],
    },
  ]),
  ...told("other-08", "no-knead", "https://bestroominthehouse.wordpress.com/2007/08/11/", [
    ["yeast missing"],
    { culture: "baker's yeast", stages: [stage("bulk", 1080, 1440)], cues: ["no-rise", "slack-at-the-end"] },
  ]),
  ...told(
    "other-10",
    "whole wheat pan bread",
    "https://cookingforthefam.wordpress.com/tuesday-tips/tuesday-tip-how-to-measure-dry-ingredients/",
    [
      ["flour by cup"],
      {
        vessel: "tin",
        stages: [],
        changes: [{ kind: "flour by cup", words: "The flour was dipped with the cup" }],
        cues: ["dense", "dry-crumb", "weighed-was-better"],
      },
    ],
  ),
  ...told(
    "other-12",
    "100 % whole wheat pan sourdough",
    "https://yayyayskitchen.com/2014/06/25/what-went-wrong-with-that-first-loaf/",
    [
      ["overworked gluten", "levain over-ripe"],
      {
        culture: "sourdough",
        leavenShare: 0.247,
        hydration: range(0.671),
        salt: range(0.0188),
        fat: 0.07,
        vessel: "tin",
        stages: [{ kind: "levain" }, { kind: "bulk" }],
        cues: ["levain-sunken", "kneaded-very-long", "dense", "sharply-sour"],
      },
    ],
  ),
  ...told(
    "other-13",
    "country sourdough",
    "https://hundredloaves.com/ten",
    [
      ["salt too much"],
      { culture: "sourdough", salt: range(0.04), stages: [], cues: ["too-salty"] },
      "the loaf before",
    ],
    [
      [],
      {
        culture: "sourdough",
        salt: range(0.02),
        stages: [{ kind: "bulk", c: range(16, 18), of: "room", known: "felt" }],
        cues: ["levain-sluggish"],
      },
      "this loaf, whose end was not told",
    ],
  ),
  ...told(
    "other-15",
    "soft rolls",
    "http://squirrelsnsweets.blogspot.com/2014/02/finally-dinner-rolls.html",
    [
      ["yeast missing"],
      {
        culture: "baker's yeast",
        stages: [{ kind: "bulk" }, { kind: "proof" }],
        cues: ["no-rise", "dense", "more-leaven-was-better"],
      },
      "attempt 1",
    ],
    [
      ["nothing wrong"],
      { culture: "baker's yeast", stages: [{ kind: "bulk" }, { kind: "proof" }], cues: ["turned-out-well"] },
      "attempt 2",
    ],
  ),
  ...told("other-17", "brioche, mixed by hand", "https://focusconfuoco.blogspot.com/2009/11/bba-4-brioche.html", [
    ["weak gluten", "yeast missing", "levain weak"],
    {
      culture: "baker's yeast",
      vessel: "tin",
      stages: [{ ...stage("retard", 960), of: "fridge" }, { kind: "proof" }],
      cues: ["rich-dough", "levain-sluggish", "hardly-kneaded", "never-filled-the-tin", "fat-ran-out"],
    },
  ]),
  ...told("other-18", "rich pan brioche", "https://newsletter.wordloaf.org/p/monday-mix-51523", [
    ["too rich"],
    { vessel: "tin", stages: [], cues: ["rich-dough", "fine-and-even", "sides-pulled-in"] },
  ]),
  ...told("control-01", "sourdough boule", "https://griff.works/2026/02/22/1506", [
    ["nothing wrong"],
    {
      culture: "sourdough",
      vessel: "hearth",
      stages: [{ ...stage("bulk", 420), c: range(21.1), of: "room", known: "measured" }],
      rise: { share: 0.5, known: "felt" },
      cues: ["good-ear", "turned-out-well"],
    },
  ]),
  ...told("control-03", "mixed flour sourdough", "https://www.thefreshloaf.com/node/64403/texas-sourdough", [
    ["nothing wrong"],
    {
      culture: "sourdough",
      leavenShare: 0.092,
      hydration: range(0.679),
      salt: range(0.0187),
      vessel: "pot",
      stages: [stage("rest", 180), stage("bulk", 240), { ...stage("retard", 960), of: "fridge" }],
      cues: ["open-and-even", "great-spring"],
    },
  ]),
  ...told("control-04", "sourdough with rye", "https://marlenesfood.com/jeffrey-hamelmans-vermont-sourdough/", [
    ["nothing wrong"],
    {
      culture: "sourdough",
      leavenShare: 0.162,
      hydration: range(0.689),
      salt: range(0.02),
      insideC: 98.3,
      stages: [
        stage("levain", 840, 960),
        stage("rest", 60),
        stage("bulk", 150),
        stage("wait", 20),
        stage("proof", 180, 210),
      ],
      cues: [],
    },
  ]),
  ...told("control-05", "make-ahead soft rolls", "https://flatbreadgarden.com/2012/06/08/easy-dinner-rolls", [
    ["nothing wrong"],
    {
      culture: "baker's yeast",
      hydration: range(0.4, 0.69),
      salt: range(0.01, 0.012),
      stages: [{ kind: "retard", of: "fridge" }, stage("proof", 60)],
      cues: ["overflowed", "turned-out-well"],
    },
  ]),
  ...told("control-06", "milk bread with yeast", "https://highdesertbakery.com/2017/04/07/victorian-milk-bread/", [
    ["nothing wrong"],
    {
      culture: "baker's yeast",
      vessel: "tin",
      stages: [
        { kind: "bulk", c: range(18.9), of: "room", known: "measured" },
        { kind: "proof", c: range(18.9), of: "room", known: "measured" },
        stage("proof", 45),
      ],
      cues: ["little-rise", "rose-well", "fine-and-even"],
    },
  ]),
]

type Bake = [agreed: ExplanationKey[], facts: BakeFacts, name?: string]

function told(id: string, bread: string, source: string, ...bakes: Bake[]): ToldDiagnosis[] {
  return bakes.map(([agreed, facts, name]) => ({
    ...{ id, bread, source, facts },
    ...(name ? { name } : {}),
    ...(agreed.length ? { agreed } : {}),
  }))
}

function range(low: number, high = low) {
  return { low, high }
}

function stage(kind: ToldStage["kind"], low: number, high = low): ToldStage {
  return { kind, min: { low, high } }
}

function hearthBread(bulkMin: number): BakeFacts {
  return {
    culture: "sourdough",
    leavenShare: 0.1,
    hydration: range(0.75),
    salt: range(0.018),
    vessel: "hearth",
    stages: [
      stage("levain", 210),
      stage("rest", 90),
      { ...stage("bulk", bulkMin), c: range(25), of: "room", known: "assumed" },
      stage("wait", 45),
    ],
    cues: [],
  }
}
