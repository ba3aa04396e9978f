import type { Range, Share } from "../amounts.ts"
import { showRange, showShare } from "../units.ts"
import type { LineFigures } from "./formula.ts"
import { capital, type Worked } from "./gaps.ts"
import type { PlacedLine } from "./lines.ts"
import { nameOf } from "./parts.ts"
import { askAboutPrinted } from "./printed.ts"

/** Something that can be worked out but looks odd. `part` and `line` are indexes, where it is about one of them. */
export type Question = { about: string; words: string; part?: number; line?: number }

/** What to ask the writer of a formula before a class bakes it; none of it is an error. */
export function askAbout(worked: Worked): Question[] {
  return [
    ...askAboutSalt(worked),
    ...askAboutRichness(worked),
    ...askAboutWater(worked),
    ...askAboutLeaven(worked),
    ...worked.lines.flatMap((line) => (line.counted ? askAboutLine(line, worked) : askAboutRepeated(line, worked))),
    ...askAboutPrinted(
      worked.figures,
      ([part, line]) => worked.formula.parts[part]!.lines[line]!.ingredient.trim(),
      worked.mass,
    ),
    ...askAboutJars(worked),
  ]
}

/** Usual shares of the flour. Common practice, no published source. */
const usual = {
  salt: { low: 0.015, high: 0.025 },
  saltMiddle: 0.02,
  mostFat: 1,
  butterOfRichBrioche: { low: 0.5, high: 0.8 },
  mostSugar: 0.3,
  water: { low: 0.45, high: 1.2 },
  waterMiddle: 0.65,
  mostDryYeast: 0.05,
  dryYeast: { low: 0.003, high: 0.02 },
  mostFreshYeast: 0.1,
  freshYeast: { low: 0.01, high: 0.05 },
  mostStays: 0.5,
}

const percents = (range: Range<Share>) => showRange(range, showShare)
const wouldBe = (share: Share, { figures: { flour }, mass }: Worked, what = "") =>
  flour ? ` ${showShare(share)} would be ${mass({ low: share * flour.low, high: share * flour.high })}${what}.` : ""

/** Of the salt as written; that in salted butter, cheese and the like only speaks against too little. */
function askAboutSalt(worked: Worked): Question[] {
  const { salt, wholeSalt, leftOut, formulaTotal } = worked.figures
  if (!salt) return []
  const ask = (words: string) => [{ about: "salt", words }]
  const normal = `most bread has ${percents(usual.salt)}`
  if (salt.low > usual.salt.high) {
    const ofDough = formulaTotal && { low: salt.low / formulaTotal.high, high: salt.high / formulaTotal.low }
    const isOfDough = ofDough && ofDough.low <= usual.salt.high && ofDough.high >= usual.salt.low
    const doubt = isOfDough ? ` It is ${percents(ofDough)} of the whole dough: was that meant?` : ""
    return ask(`Salt is ${percents(salt)} of the flour; ${normal}.${wouldBe(usual.saltMiddle, worked)}${doubt}`)
  }
  if ((wholeSalt ?? salt).high >= usual.salt.low || leftOut.wholeSalt.length) return []
  if (salt.high === 0) return ask(`There is no salt in it; ${normal} of the flour. Is that meant?`)
  return ask(
    `Salt is only ${percents(salt)} of the flour; ${normal}.${wouldBe(usual.saltMiddle, worked)} Is that meant?`,
  )
}

function askAboutRichness({ lines, figures: { fat, sugar, parts } }: Worked): Question[] {
  const ask = (about: string, words: string) => [{ about, words: `${words} Is that meant?` }]
  const isOneFat = lines.some((line) => isRich(line, parts[line.partIndex]!.lines[line.lineIndex]!))
  const tooFat = fat && fat.low > usual.mostFat && !isOneFat
  const tooSweet = sugar && sugar.low > usual.mostSugar
  return [
    ...(tooFat ? ask("fat", `There is more fat than flour in it: ${percents(fat)} of the flour.`) : []),
    ...(tooSweet ? ask("sugar", `Sugar is ${percents(sugar)} of the flour, more than in most sweet doughs.`) : []),
  ]
}

function askAboutWater(worked: Worked): Question[] {
  const { wholeHydration: hydration, leftOut } = worked.figures
  if (!hydration) return []
  const ask = (amount: string) => [
    {
      about: "hydration",
      words: `With all water counted, hydration is ${amount} ${percents(hydration)}.${wouldBe(usual.waterMiddle, worked, " of water")} Is an amount of water or flour mistyped?`,
    },
  ]
  if (hydration.low > usual.water.high) return ask("as high as")
  return hydration.high < usual.water.low && !leftOut.wholeHydration.length ? ask("only") : []
}

function askAboutLeaven({ lines, figures }: Worked): Question[] {
  const raises = ({ countsAs, name, counted }: PlacedLine) =>
    counted && (countsAs === "leaven" || countsAs === "starter" || /baking (powder|soda)|bicarbonate/i.test(name))
  if (!figures.dough || lines.some(raises)) return []
  return [{ about: "leaven", words: "There is neither yeast nor starter in it. Is it meant to stay flat?" }]
}

function askAboutLine(line: PlacedLine, worked: Worked): Question[] {
  const { partIndex, lineIndex, quantity, name } = line
  const of = worked.figures.parts[partIndex]!.lines[lineIndex]!
  const words = [
    ...askAboutRichLine(line, of, worked),
    ...askAboutYeast(line, of, worked),
    ...(isFlourByVolume(line)
      ? [`Is a cup of ${name} dipped into the bag or spooned in? It can hold a fifth more or less: better weigh it.`]
      : []),
    ...("openEnded" in quantity && quantity.openEnded
      ? [
          `“${line.written.quantity.trim()}” of ${name} has no upper end: every figure takes the lowest. Up to how much?`,
        ]
      : []),
  ]
  return words.map((each) => ({ about: name, words: each, part: partIndex, line: lineIndex }))
}

const isRich = ({ ingredient }: PlacedLine, { share }: LineFigures) =>
  ingredient?.role === "fat" && share !== undefined && share.low > usual.mostFat

function askAboutRichLine(line: PlacedLine, of: LineFigures, worked: Worked) {
  if (!isRich(line, of)) return []
  const brioche = usual.butterOfRichBrioche
  return [
    `${capital(line.name)} is ${percents(of.share!)} of the flour; even a rich brioche has ${percents(brioche)}.${wouldBe(brioche.low, worked)} Is the amount right?`,
  ]
}

function askAboutYeast({ countsAs, ingredient, name }: PlacedLine, { share }: LineFigures, worked: Worked) {
  if (countsAs !== "leaven" || !share) return []
  // Compressed yeast is two thirds water, dried yeast hardly any (USDA SR28).
  const isFresh = (ingredient?.per100g.water ?? 0) > 30 || /fresh|compressed/i.test(name)
  const [most, range] = isFresh ? [usual.mostFreshYeast, usual.freshYeast] : [usual.mostDryYeast, usual.dryYeast]
  if (share.low <= most) return []
  const doubt = isFresh ? "Is the amount right?" : "Was fresh yeast meant, or a packet taken for a spoon?"
  return [
    `${capital(name)} is ${percents(share)} of the flour; usual is ${percents(range)}.${wouldBe(range.high, worked)} ${doubt}`,
  ]
}

/** A cup of flour differs by a fifth between bakers: 17 against 20.4 oz for four cups, weighed by two who baked together. */
function isFlourByVolume({ countsAs, quantity, written }: PlacedLine) {
  const spoken = (written.readAs || written.quantity).toLowerCase()
  const byVolume = /(^|[^a-z])(cups?|c|tbsps?|tablespoons?|ml|cl|dl|litres?|liters?|l|pints?|quarts?)\b/.test(spoken)
  const byMass = /\d *(g|gr|grams?|kg|oz|ounces?|lbs?|pounds?)\b/.test(spoken)
  return countsAs === "flour" && quantity.kind === "mass" && byVolume && !byMass
}

// A line that repeats its part may differ by rounding. Our own limit, no published source.
const repeatTolerance = 0.01

/** "450 g made, 278 g of it used": the difference may be what stays in the jar. */
function askAboutRepeated(
  { repeats, quantity, name, partIndex, lineIndex }: PlacedLine,
  { figures, mass }: Worked,
): Question[] {
  const used = repeats === undefined ? undefined : figures.parts[repeats]?.used
  if (!used || quantity.kind !== "mass") return []
  const { low, high } = quantity.g
  if (high >= used.low * (1 - repeatTolerance) && low <= used.high * (1 + repeatTolerance)) return []
  const rest = { low: used.low - high, high: used.high - low }
  const words =
    rest.low > 0
      ? `${capital(name)} makes ${mass(used)} and ${mass(quantity.g)} of it are asked for here: do ${mass(rest)} stay in the jar?`
      : `${capital(name)} makes only ${mass(used)}, but ${mass(quantity.g)} are asked for here. Which one holds?`
  return [{ about: name, words, part: partIndex, line: lineIndex }]
}

function askAboutJars({ formula, figures, mass }: Worked): Question[] {
  return figures.parts.flatMap(({ stays, made, used }, part) => {
    if (!stays || stays.low <= usual.mostStays) return []
    const name = nameOf(formula.parts[part])
    const amounts = made && used ? `: ${mass(made)} are made and ${mass(used)} used` : ""
    return [{ about: name, words: `More of ${name} stays in its jar than goes on${amounts}. Is that meant?`, part }]
  })
}
