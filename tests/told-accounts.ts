import { z } from "zod"
import { type CueKey, cues } from "../server/dough/verdict/cues.ts"
import { cuesInWords, type Suggestion } from "../server/dough/verdict/cues-in-words.ts"
import type { BakeFacts, Finger, ToldStage } from "../server/dough/verdict/facts.ts"

const span = z.union([z.number(), z.tuple([z.number(), z.number()])]).nullish()

/**
 * An account as notes of a public page hold it, nothing brought into order yet: the formula's lines, the stages and what was
 * seen as words, with what could be reckoned beside them. Whatever else is in it is not looked at, above all not what
 * anybody concluded.
 */
export const account = z.object({
  id: z.string(),
  bread: z.string().default(""),
  source_url: z.string().default(""),
  formula_lines: z.array(z.string()).default([]),
  stages: z
    .array(
      z.object({
        name: z.string(),
        minutes: span,
        minutes_as_written: z.string().nullish(),
        minutes_estimated_by_us: z.boolean().nullish(),
        temp_c: span,
        temp_kind: z.string().nullish(),
        note: z.string().nullish(),
      }),
    )
    .default([]),
  observations: z.array(z.string()).default([]),
  rise: z.object({ increase_pct: span, basis: z.string().nullish(), stage: z.string().nullish() }).nullish(),
  derived_by_us: z
    .object({
      hydration_pct: span,
      before_rescue_hydration_pct: span,
      salt_pct: span,
      prefermented_flour_pct: span,
    })
    .nullish(),
})
export type Account = z.output<typeof account>
type Stage = Account["stages"][number]

/**
 * Brings an account into the shape that verdicts are reached from, by its words: a suggestion that a person should look
 * through before believing it. Lengths that somebody estimated are left out.
 */
export function readAccount(told: Account): { facts: BakeFacts; suggested: Suggestion[] } {
  const suggested = suggestedIn(told)
  const facts = {
    culture: cultureIn(told),
    leavenShare: shareOf(told.derived_by_us?.prefermented_flour_pct),
    hydration: waterIn(told),
    salt: saltIn(told),
    vessel: vesselIn(told),
    stages: told.stages.flatMap(stageOf),
    rise: riseIn(told),
    finger: fingerIn(told),
    insideC: insideIn(told),
    changes: changesIn(told),
    cues: suggested.map(({ key }) => key),
  }
  return { facts: withoutGaps(facts), suggested }
}

const withoutGaps = (facts: { [key in keyof BakeFacts]: BakeFacts[key] | undefined }) =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as BakeFacts

const wordsOf = ({ bread, formula_lines, stages, observations }: Account) =>
  [
    bread,
    ...formula_lines,
    ...stages.flatMap(({ name, note, minutes_as_written }) => [name, note ?? "", minutes_as_written ?? ""]),
    ...observations,
  ].join("\n")

/**
 * What the words tell, each cue once. A formula's lines are read only for what a line of a formula can tell, and the names of
 * stages only for what a name can.
 */
function suggestedIn({ bread, formula_lines, stages, observations }: Account): Suggestion[] {
  const only = (words: string[], keys: CueKey[]) =>
    words.flatMap((one) => cuesInWords(one)).filter(({ key }) => keys.includes(key))
  const ofStages = stages.flatMap(({ name, note, minutes_as_written }) => {
    const about = isLevain(name) ? "levain" : "bread"
    const said = [note, minutes_as_written].flatMap((words) => (words ? [`${name}: ${words}`] : []))
    const inNames = only([name], toldByNames)
    return [...inNames, ...said.flatMap((words) => cuesInWords(words, about)).filter(({ key }) => isOfMaking(key))]
  })
  const found = [
    ...only([bread, ...formula_lines], toldByFormulas),
    ...ofStages,
    ...observations.flatMap((words) => cuesInWords(words)),
  ]
  return found.filter(({ key }, at) => found.findIndex((other) => other.key === key) === at)
}
const toldByFormulas: CueKey[] = [
  ...(["levain-sunken", "levain-young", "levain-sluggish", "levain-sharp", "yeast-flat"] as const),
  ...(["cold-liquid", "rich-dough", "weighed-was-better"] as const),
]
const toldByNames: CueKey[] = ["waited-for-the-oven", "cut-short", "stood-too-long"]
const isOfMaking = (key: CueKey) => !["crust", "crumb", "taste"].includes(cues[key].moment)

const isLevain = (name: string) => /levain|leaven|starter|sponge|poolish|biga|preferment|build/i.test(name)

function cultureIn(told: Account): BakeFacts["culture"] {
  const words = wordsOf(told)
  const packet =
    /(?<!wild )(?<!sour )yeast|\bidy\b|\bady\b/i.test(words) ||
    /brioche|challah|\brolls?\b|buns?\b|milk bread|no-knead/i.test(told.bread)
  if (/sourdough|levain|leaven|starter|\bsour\b|inoculat/i.test(words)) return "sourdough"
  return packet ? "baker's yeast" : undefined
}

const ends = (told: number | [number, number]) => (typeof told === "number" ? ([told, told] as const) : told)
const rangeOf = (told: number | [number, number] | null | undefined, scale = 1) => {
  if (told === null || told === undefined) return undefined
  const [low, high] = ends(told)
  return { low: low * scale, high: high * scale }
}
function shareOf(told: number | [number, number] | null | undefined) {
  const range = rangeOf(told, 0.01)
  return range && range.high > 0 ? (range.low + range.high) / 2 : undefined
}

function waterIn(told: Account) {
  const derived = told.derived_by_us?.before_rescue_hydration_pct ?? told.derived_by_us?.hydration_pct
  const match = /(?:at )?(\d{2,3})(?:\.\d+)? ?% hydra|hydrat\w*[^\d\n]{0,12}(\d{2,3}) ?%|(\d{2,3}) ?% hydrated/i.exec(
    wordsOf(told),
  )
  const written = Number(match?.[1] ?? match?.[2] ?? match?.[3])
  return rangeOf(derived, 0.01) ?? (written >= 45 && written <= 120 ? rangeOf(written, 0.01) : undefined)
}

function saltIn(told: Account) {
  const lines = told.formula_lines.filter((line) => /salt/i.test(line))
  const written = lines.flatMap((line) => {
    const ofFlour =
      /(\d+(?:\.\d+)?) ?% (?:of the |on )?flour/i.exec(line) ??
      /salt[^\d%]*(\d+(?:\.\d+)?) ?%(?! of the (?:whole )?dough)/i.exec(line)
    return ofFlour ? [Number(ofFlour[1])] : []
  })
  return rangeOf(told.derived_by_us?.salt_pct, 0.01) ?? (written.length ? rangeOf(written[0], 0.01) : undefined)
}

function vesselIn(told: Account): BakeFacts["vessel"] {
  const words = wordsOf(told)
  if (/\b(?:tin|pan loaf|pan bread|loaf pan|sandwich|pans?|pullman)\b/i.test(words)) return "tin"
  if (/\b(?:pots?|dutch oven|lid|cast iron|cloche)\b/i.test(words)) return "pot"
  return /\b(?:stone|hearth|sheet|tray|boules?|batards?|baguettes?|pizza|free-?form|ciabatta|peel)\b/i.test(words)
    ? "hearth"
    : undefined
}

const kinds: [RegExp, ToldStage["kind"] | undefined][] = [
  [/levain|leaven|starter|sponge|poolish|biga|preferment|build/i, "levain"],
  [/planned|whole day|all stages|cool|^bake|baking|oven steam|lid o|left in/i, undefined],
  [/autolyse|rest before|rest after mix|^mix|mix and wait|knead|salt/i, "rest"],
  [/waiting|queue|bench|pre-?shape|out of the fridge|warm[- ]up|to shape|room rest/i, "wait"],
  [/fridge|retard|chill|refriger|cold/i, "retard"],
  [/final|proof|prove|second rise|last rise/i, "proof"],
  [/bulk|rise|ferment|fold|counter|dough|first/i, "bulk"],
]

function stageOf(stage: Stage): ToldStage[] {
  const { name, minutes, minutes_estimated_by_us: estimated, temp_c, temp_kind } = stage
  const warmth = temp_kind ?? ""
  const named = kinds.find(([pattern]) => pattern.test(name))?.[1]
  const measuredInDough = /^knead|^mix/i.test(name) && /dough/i.test(warmth) && temp_c !== null && temp_c !== undefined
  const kind = measuredInDough ? "bulk" : named && /fridge/i.test(warmth) && named !== "levain" ? "retard" : named
  if (!kind || (/oven$|water/i.test(warmth) && kind !== "retard" && /^(?:oven|water)/i.test(warmth))) return []
  const of = kind === "retard" || /fridge/i.test(warmth) ? "fridge" : /^dough/i.test(warmth) ? "dough" : "room"
  const known = /assum|weather|outdoor|mat\b/i.test(warmth) ? "assumed" : "measured"
  const min = estimated || measuredInDough || /builds|feedings/i.test(name) ? undefined : rangeOf(minutes)
  const c = rangeOf(temp_c)
  return [
    {
      kind,
      ...(min && min.high > 0 ? { min } : {}),
      ...(c ? { c, known } : {}),
      ...(c || of === "fridge" ? { of } : {}),
    },
  ]
}

function riseIn({ rise }: Account): BakeFacts["rise"] {
  const range = rangeOf(rise?.increase_pct, 0.01)
  if (!range) return undefined
  const known = /mark|jar|measur|aliquot|straight/i.test(rise?.basis ?? "") ? "measured" : "felt"
  return { share: (range.low + range.high) / 2, known }
}

function fingerIn(told: Account): BakeFacts["finger"] {
  const said = told.observations.find((words) => /poke|finger|dent|gentle press/i.test(words))
  if (!said) return undefined
  const found = fingers.find(([pattern]) => pattern.test(said))?.[1]
  return (
    found && {
      found,
      at:
        /bulk|first rise/i.test(said) || !told.stages.some(({ name }) => /proof|prove|final/i.test(name))
          ? "bulk"
          : "proof",
    }
  )
}
const fingers: [RegExp, Finger][] = [
  [/stay|remain|did(?: not|n't) (?:spring|come)|no spring ?back|left a/i, "stays"],
  [/slow|pass|part|half|just right|good/i, "slowly-partly"],
  [/(?:sprang|springs?|bounced?|comes?|came) (?:right |straight |at once |quickly )?back|fast|quick/i, "straight-back"],
]

function insideIn(told: Account): number | undefined {
  const words = told.observations.join("\n")
  const match =
    /(?:core|internal|inside|centre|center)[^\d\n]{0,25}(\d{2,3})(?:\.\d)?(?: ?(?:-|–|to) ?(\d{2,3}))? ?°? ?([CF])\b/i.exec(
      words,
    )
  if (!match) return undefined
  const value = (Number(match[1]) + Number(match[2] ?? match[1])) / 2
  const c = match[3]!.toUpperCase() === "F" ? ((value - 32) * 5) / 9 : value
  return c > 60 && c < 110 ? c : undefined
}

function changesIn(told: Account): BakeFacts["changes"] {
  const lines = [...told.formula_lines, ...told.stages.map(({ note }) => note ?? ""), ...told.observations].flatMap(
    (line) => line.split(/[;.]/),
  )
  const found = changed.flatMap(([kind, pattern]) => {
    const words = lines.find((line) => pattern.test(line))
    return words ? [{ kind, words: words.trim() }] : []
  })
  return found.length ? found : undefined
}
const omitted = String.raw`(?:forgot|forgotten|left out|omitted|never added|missing|no\b)`
const changed: [NonNullable<BakeFacts["changes"]>[number]["kind"], RegExp][] = [
  [
    "salt left out",
    new RegExp(
      String.raw`\bsalt\b[^,]*\b(?:forgot|forgotten|left out|omitted|never|missing)|salt:.*forgot|\b${omitted} (?:to add )?(?:the )?salt\b`,
      "i",
    ),
  ],
  [
    "yeast left out",
    /\b(?:yeast|starter|levain)\b[^,]*\b(?:forgot|forgotten|left out|omitted|never added)|\b(?:forgot|left out|omitted) (?:to add )?(?:the )?(?:yeast|starter|levain)\b/i,
  ],
  ["flour by cup", /\bdip (?:and|&)|dipped|scooped? (?:and|the cup|straight)|packed cup|heaped cup/i],
  [
    "flour added",
    /(?:\d+ ?g|lot of|lots of|more|extra|handfuls? of) flour (?:was )?(?:added|worked|kneaded)|added [^,]*flour|\d+ ?g \+ \d+ ?g/i,
  ],
  [
    "other flour",
    /(?:different|new|other|another|european|local|weaker|plain|all-purpose instead|cheaper) (?:brand of )?flour|swapped [^,]*flour|instead of bread flour|flour swapped/i,
  ],
]
