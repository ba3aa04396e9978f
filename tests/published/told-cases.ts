/**
 * Bakes that their bakers told in public, each with its address; the facts only, in our own words, and nothing that was not
 * told. Seen as notes that were taken from those pages, not checked against them again.
 */
export type ToldCase = { id: string; bread: string; source: string; bakes: ToldBake[] }

/**
 * One bake as it would be entered at the moment its bulk was over. Times are words as somebody says them then; a stage
 * without a length was told without one. `rise` is what was told of the dough at that moment, `target` what the baker's book asked for.
 */
export type ToldBake = {
  name?: string
  parts: ToldPart[]
  stages: ToldStage[]
  marks: { stage: string; from: string; to?: string }[]
  readings: { kind: string; value: string; known: "measured" | "assumed" | "felt"; when: string }[]
  rise?: { words: string; share: number }
  target?: number
  /** Where its bulk had come to by then, as its baker or those who answered saw it; "" when they blame something else. */
  bulk: "too far" | "too short" | "about right" | ""
  happened: string
}
export type ToldPart = { name: string; stays?: string; lines: [quantity: string, ingredient: string][] }
export type ToldStage = [kind: string, name: string, lasts: string]

const bulkOnly: ToldStage[] = [
  ["mix", "Mix", ""],
  ["bulk", "Bulk", ""],
  ["shape", "Shape", ""],
  ["proof", "Proof", ""],
  ["bake", "Bake", ""],
]
/** The same with the lengths that were told, by stage. */
const stages = (lengths: Record<string, string>): ToldStage[] =>
  bulkOnly.map(([kind, name]) => [kind, name, lengths[kind] ?? ""])

const dough = (...lines: ToldPart["lines"]): ToldPart => ({ name: "Dough", lines })
const levain = (stays: string, ...lines: ToldPart["lines"]): ToldPart => ({ name: "Levain", stays, lines })
const nothing = { parts: [], marks: [], readings: [] }

export const toldCases: ToldCase[] = [
  {
    id: "over-02",
    bread: "country sourdough",
    source: "https://hundredloaves.com/eight",
    bakes: [
      {
        parts: [
          levain("", ["10 g", "starter"], ["50 g", "bread flour"], ["50 g", "water"]),
          dough(["637.5 g", "bread flour"], ["112.5 g", "whole wheat flour"], ["100 %", "water"]),
        ],
        stages: stages({ mix: "10 min", bulk: "10 h 30" }),
        marks: [
          { stage: "mix", from: "10 h 40 ago", to: "10 h 30 ago" },
          { stage: "bulk", from: "10 h 30 ago" },
        ],
        readings: [],
        bulk: "too far",
        happened: "huge bubbles in the morning, over-proofed in bulk; the salt was forgotten too",
      },
    ],
  },
  {
    id: "over-03",
    bread: "40 % whole wheat sourdough",
    source: "https://hundredloaves.com/eighteen",
    bakes: [
      {
        parts: [
          { name: "Levain", lines: [["", "ripe starter"]] },
          dough(["60 %", "bread flour"], ["40 %", "whole wheat flour"]),
        ],
        stages: [
          ["rest", "Levain", "23 h"],
          ["rest", "Autolyse", "60 min"],
          ["mix", "Mix", "25 min"],
          ["bulk", "Folds", ""],
          ["shape", "Shape", ""],
          ["proof", "Proof", "60 min"],
          ["bake", "Bake", "60 min"],
        ],
        marks: [{ stage: "mix", from: "2 h ago" }],
        readings: [],
        bulk: "",
        happened: "almost liquid: the levain had stood 23 h at 27 °C, the dough’s own times were ordinary",
      },
    ],
  },
  {
    id: "over-04",
    bread: "San Francisco style sourdough",
    source: "https://web.thefreshloaf.com/blog/mag314",
    bakes: [
      {
        parts: [
          levain("", ["0.75 oz", "liquid rye starter"], ["20 %", "white flour"], ["10 %", "water"]),
          dough(["80 %", "white flour"], ["53 %", "water"]),
        ],
        stages: stages({ bulk: "8 – 12 h" }),
        marks: [{ stage: "bulk", from: "overnight" }],
        readings: [],
        bulk: "too far",
        happened: "deflated when it was moved; the same night had worked in a cooler week",
      },
    ],
  },
  {
    id: "over-07",
    bread: "no-knead loaf with levain and yeast",
    source: "https://livingsmallblog.com/2011/09/19/first-good-bread-of-the-fall/",
    bakes: [
      hybrid("in the heat", ["90 °F"], "too far", "limp, takes no skin when it is shaped"),
      hybrid("in cool weeks", ["65 °F", "70 °F"], "about right", "keeps some shape and pushes back"),
    ],
  },
  {
    id: "over-08",
    bread: "half whole wheat sourdough",
    source: "https://gist.github.com/Nargonath/dc388e12cf22827fe4db4b649f9c65ef",
    bakes: [
      {
        parts: [
          dough(
            ["200 g", "starter"],
            ["300 g", "white flour"],
            ["300 g", "whole wheat flour"],
            ["400 g", "water"],
            ["2 tbsp", "water"],
            ["12 g", "salt"],
          ),
        ],
        stages: [
          ["mix", "Mix", ""],
          ["rest", "Rest before the salt", "60 min"],
          ["retard", "Fridge", "48 – 60 h"],
          ["shape", "Shape", ""],
          ["bake", "Bake", ""],
        ],
        marks: [{ stage: "retard", from: "48 to 60 hours ago" }],
        readings: [],
        bulk: "too far",
        happened: "far too soft after more than two days in the fridge",
      },
    ],
  },
  {
    id: "over-13",
    bread: "half whole grain sourdough",
    source: "https://forum.breadtopia.com/t/spelt-red-fife-and-rye-sourdough-no-2/12872",
    bakes: [
      {
        ...nothing,
        stages: stages({}),
        marks: [{ stage: "mix", from: "3 h ago" }],
        bulk: "too far",
        happened: "its bulk was half an hour longer than the bake before, which was slightly under",
      },
    ],
  },
  {
    id: "over-17",
    bread: "challah, a two-layer braid",
    source: "http://kozelsky.blogspot.com/2010/03/bba-challenge-challa.html",
    bakes: [
      {
        ...nothing,
        stages: [
          ["mix", "Knead", ""],
          ["bulk", "Rise", ""],
          ["shape", "Braid", ""],
          ["retard", "Fridge", ""],
          ["bake", "Bake", ""],
        ],
        marks: [{ stage: "mix", from: "2 h ago" }],
        readings: [{ kind: "dough", value: "80 °F", known: "measured", when: "2 h ago" }],
        bulk: "",
        happened: "went into the fridge warm and fell there overnight",
      },
    ],
  },
  {
    id: "under-01",
    bread: "flat hearth bread, sourdough",
    source: "https://github.com/misoboute/baking/blob/master/Sourdough%20Bread%207%20-%2020-07-12.md",
    bakes: [
      hearth({
        minutes: "255 min",
        rise: { words: "130 % of the start", share: 0.3 },
        bulk: "too short",
        happened: "under-fermented",
      }),
      hearth({ name: "the next one", minutes: "510 min", bulk: "too far", happened: "twice the time, and too far" }),
    ],
  },
  {
    id: "under-03",
    bread: "country sourdough",
    source: "http://bakingartisanbread.blogspot.com/2017/09/tartine-country-bread.html",
    bakes: [
      {
        parts: [
          levain(
            "20 g",
            ["20 g", "starter"],
            ["100 g", "water"],
            ["50 g", "all-purpose flour"],
            ["50 g", "whole wheat flour"],
          ),
          dough(["900 g", "all-purpose flour"], ["100 g", "whole wheat flour"], ["700 g", "water"]),
        ],
        stages: stages({ bulk: "210 min", proof: "100 min" }),
        marks: [{ stage: "bulk", from: "210 min ago" }],
        readings: [
          { kind: "dough", value: "25 °C", known: "measured", when: "210 min ago" },
          { kind: "dough", value: "80 °F", known: "measured", when: "1 min ago" },
        ],
        rise: { words: "about 15 %", share: 0.15 },
        bulk: "too short",
        happened: "a little under, a pleasing loaf all the same",
      },
    ],
  },
  {
    id: "under-04",
    bread: "30 % brown sourdough with sesame",
    source: "http://bakingartisanbread.blogspot.com/2014/",
    bakes: [
      {
        ...nothing,
        stages: stages({ bulk: "12 – 15 h", proof: "4 h" }),
        marks: [{ stage: "bulk", from: "570 min ago" }],
        readings: [
          { kind: "dough", value: "82 °F", known: "measured", when: "570 min ago" },
          { kind: "room", value: "76 °F", known: "measured", when: "570 min ago" },
        ],
        rise: { words: "doubled", share: 1 },
        target: 1,
        bulk: "",
        happened: "doubled well before the book’s time; the proof was cut and chilled too much",
      },
    ],
  },
  {
    id: "under-05",
    bread: "65 % whole wheat sourdough",
    source: "https://huggingface.co/datasets/breadlicker45/bread-qa/viewer/default/train?p=11",
    bakes: [
      {
        parts: [
          dough(
            ["650 g", "whole wheat flour"],
            ["350 g", "all-purpose flour"],
            ["720 g", "water"],
            ["150 g", "starter"],
            ["20 g", "salt"],
          ),
        ],
        stages: [
          ["rest", "Autolyse", "40 min"],
          ["fold", "Bulk with folds", "150 min"],
          ["bulk", "Bulk", "180 – 210 min"],
          ["shape", "Bench and shape", "30 min"],
          ["retard", "Retard", "14 h"],
          ["bake", "Bake", ""],
        ],
        marks: [{ stage: "fold", from: "330 to 360 min ago" }],
        readings: [{ kind: "room", value: "69 °F", known: "measured", when: "6 h ago" }],
        bulk: "too short",
        happened: "dense in the middle, with large holes",
      },
    ],
  },
  {
    id: "under-06",
    bread: "rye",
    source: "https://www.thefreshloaf.com/node/79462/low-humidity-high-humility",
    bakes: [
      rye("breads 1 and 2", "8 %", "180 min", "too short", "dense and dry, the dough would not respond"),
      rye("bread 3", "30 %", "480 min", "about right", "a success"),
    ],
  },
  {
    id: "under-15",
    bread: "sweetened egg loaf",
    source: "http://www.thefreshloaf.com/node/6329/all-those-extra-ingredients",
    bakes: [
      {
        parts: [
          dough(
            ["1 cup", "water"],
            ["1 package", "active dry yeast"],
            ["1/4 cup", "dark brown sugar"],
            ["1 tbsp", "dark brown sugar"],
            ["3 tbsp", "butter, melted"],
            ["1", "egg"],
            ["3 1/2 cups", "bread flour"],
            ["1 tsp", "salt"],
          ),
        ],
        stages: stages({ bake: "40 min" }),
        marks: [{ stage: "mix", from: "an hour ago" }],
        readings: [],
        bulk: "",
        happened: "burst in the oven: too short a last rise, or too little salt",
      },
    ],
  },
  {
    id: "other-02",
    bread: "white sourdough boule",
    source: "https://github.com/misoboute/baking/blob/master/Sourdough%20Bread%201%20-%2020-05-17.md",
    bakes: [
      {
        parts: [
          levain(
            "140 g",
            ["50 g", "whole wheat flour"],
            ["50 g", "white flour"],
            ["100 g", "water"],
            ["50 g", "starter"],
          ),
          dough(["550 g", "white flour"], ["332 g", "water"], ["10 g", "salt"], ["30 g", "water"]),
        ],
        stages: [
          ["rest", "Levain ripens", "4 – 5 h"],
          ["rest", "Autolyse", "60 min"],
          ["bulk", "Bulk", "240 min"],
          ["shape", "Shape", "30 min"],
          ["proof", "Proof", "180 min"],
          ["bake", "Bake", "45 min"],
        ],
        marks: [{ stage: "bulk", from: "240 min ago" }],
        readings: [{ kind: "room", value: "25 °C", known: "assumed", when: "240 min ago" }],
        bulk: "",
        happened: "it rose well, how far was not told; the damage was done while shaping",
      },
    ],
  },
  {
    id: "other-03",
    bread: "country sourdough",
    source: "http://www.hungryshots.com/2015/07/overnight-country-bread.html",
    bakes: [
      {
        parts: [
          levain("", ["33 g", "starter"], ["132 g", "wheat flour"], ["33 g", "whole wheat flour"], ["132 g", "water"]),
          dough(["804 g", "wheat flour"], ["26 g", "whole wheat flour"], ["50 g", "rye flour"], ["684 ml", "water"]),
        ],
        stages: [
          ["mix", "Mix", ""],
          ["fold", "Folds", "90 – 120 min"],
          ["bulk", "Bulk", ""],
          ["shape", "Shape", ""],
          ["bake", "Bake", ""],
        ],
        marks: [{ stage: "fold", from: "overnight" }],
        readings: [{ kind: "water", value: "33.5 °C", known: "assumed", when: "overnight" }],
        bulk: "",
        happened: "too wet for its flour from the start",
      },
    ],
  },
  {
    id: "other-13",
    bread: "country sourdough",
    source: "https://hundredloaves.com/ten",
    bakes: [
      {
        ...nothing,
        stages: stages({}),
        marks: [{ stage: "mix", from: "3 h ago" }],
        readings: [{ kind: "room", value: "17 °C", known: "felt", when: "3 h ago" }],
        bulk: "",
        happened: "the bake before had 4 % salt on flour",
      },
    ],
  },
  {
    id: "control-03",
    bread: "mixed flour sourdough",
    source: "https://www.thefreshloaf.com/node/64403/texas-sourdough",
    bakes: [
      {
        parts: [
          dough(
            ["128 g", "starter"],
            ["500 g", "bread flour"],
            ["110 g", "whole wheat flour"],
            ["20 g", "rye flour"],
            ["407 g", "water"],
            ["13 g", "salt"],
          ),
        ],
        stages: [
          ["rest", "Autolyse", "180 min"],
          ["bulk", "Bulk", "240 min"],
          ["shape", "Shape", ""],
          ["retard", "Retard", "16 h"],
          ["bake", "Bake", "38 min"],
        ],
        marks: [{ stage: "bulk", from: "240 min ago" }],
        readings: [],
        bulk: "about right",
        happened: "well proofed",
      },
    ],
  },
  {
    id: "control-04",
    bread: "sourdough with rye",
    source: "https://marlenesfood.com/jeffrey-hamelmans-vermont-sourdough/",
    bakes: [
      {
        parts: [
          levain("", ["154 g", "all-purpose flour"], ["190 g", "water"], ["16 g", "starter"]),
          dough(["740 g", "bread flour"], ["98 g", "rye flour"], ["491 g", "water"], ["20 g", "salt"]),
        ],
        stages: [
          ["rest", "Levain", "14 – 16 h"],
          ["rest", "Autolyse", "60 min"],
          ["bulk", "Bulk", "150 min"],
          ["shape", "Bench", "20 min"],
          ["proof", "Proof", "120 – 150 min"],
          ["bake", "Bake", "45 min"],
        ],
        marks: [{ stage: "bulk", from: "150 min ago" }],
        readings: [],
        bulk: "about right",
        happened: "well proofed, an hour after the book’s time",
      },
    ],
  },
  {
    id: "control-05",
    bread: "make-ahead soft rolls",
    source: "https://flatbreadgarden.com/2012/06/08/easy-dinner-rolls",
    bakes: [
      {
        parts: [
          dough(
            ["1 cup", "water"],
            ["2 packages", "yeast"],
            ["1/2 cup", "butter, melted"],
            ["1/2 cup", "sugar"],
            ["3", "eggs"],
            ["1 tsp", "salt"],
            ["4 1/4 cups", "flour"],
          ),
        ],
        stages: [
          ["mix", "Mix", ""],
          ["retard", "Fridge, overnight and through the day", ""],
          ["shape", "Shape", ""],
          ["proof", "Proof", "60 min"],
          ["bake", "Bake", "17 min"],
        ],
        marks: [{ stage: "retard", from: "18 to 25 hours ago" }],
        readings: [{ kind: "water", value: "110 °F", known: "measured", when: "yesterday evening" }],
        bulk: "about right",
        happened: "filled its bowl twice, and turned out well",
      },
    ],
  },
  {
    id: "control-06",
    bread: "milk bread with yeast",
    source: "https://highdesertbakery.com/2017/04/07/victorian-milk-bread/",
    bakes: [
      {
        ...nothing,
        stages: [
          ["mix", "Mix", ""],
          ["bulk", "First rise", ""],
          ["bulk", "Second rise", ""],
          ["shape", "Shape", ""],
          ["proof", "Last rise", "45 min"],
          ["bake", "Bake", ""],
        ],
        marks: [{ stage: "bulk", from: "90 min ago" }],
        readings: [{ kind: "room", value: "66 °F", known: "measured", when: "90 min ago" }],
        bulk: "",
        happened: "hardly moved in two rises in a cool house, and was fine in the end",
      },
    ],
  },
]

function hearth({
  minutes,
  ...told
}: Pick<ToldBake, "name" | "rise" | "bulk" | "happened"> & { minutes: string }): ToldBake {
  return {
    ...told,
    parts: [
      levain(
        "312 g",
        ["108 g", "whole wheat flour"],
        ["108 g", "all-purpose flour"],
        ["24 g", "corn meal"],
        ["240 g", "water"],
        ["120 g", "starter"],
      ),
      dough(["1298 g", "all-purpose flour"], ["938 g", "water"], ["26 g", "salt"]),
    ],
    stages: [
      ["rest", "Autolyse", "90 min"],
      ["bulk", "Bulk", minutes],
      ["shape", "Preshape and shape", "45 min"],
      ["bake", "Bake", "10 – 20 min"],
    ],
    marks: [{ stage: "bulk", from: `${minutes} ago` }],
    readings: [{ kind: "room", value: "25 °C", known: "assumed", when: `${minutes} ago` }],
  }
}

function hybrid(name: string, rooms: string[], bulk: ToldBake["bulk"], happened: string): ToldBake {
  return {
    name,
    parts: [
      dough(
        ["1 cup", "bread flour"],
        ["1 cup", "all-purpose flour"],
        ["1 cup", "whole wheat flour"],
        ["1 tbsp", "salt"],
        ["1/4 tsp", "active dry yeast"],
        ["1 1/2 cups", "sourdough starter"],
        ["1 cup", "water"],
      ),
    ],
    stages: stages({ bulk: "8 – 12 h" }),
    marks: [{ stage: "bulk", from: "overnight" }],
    readings: rooms.map((value, at) => ({
      kind: "room",
      value,
      known: "assumed" as const,
      when: at ? "overnight" : "last night",
    })),
    ...{ bulk, happened },
  }
}

function rye(name: string, inoculation: string, minutes: string, bulk: ToldBake["bulk"], happened: string): ToldBake {
  return {
    name,
    parts: [dough(["100 %", "rye flour"], [inoculation, "ripe starter"], ["85 %", "water"])],
    stages: stages({ bulk: minutes }),
    marks: [{ stage: "bulk", from: `${minutes} ago` }],
    readings: [{ kind: "room", value: "70 °F", known: "measured", when: `${minutes} ago` }],
    ...{ bulk, happened },
  }
}
