/** How often a dough is folded, in minutes; `times` where it is said. */
export type Folds = { everyMin: number; times: number | null }

const number = String.raw`(\d{1,3}(?:[.,]\d)?)`
const span = `(?:(?:the )?first )?(?:${number}|(an|one|two|three|four)) (?:h|hrs?|hours?)( and a half)?`
const every = new RegExp(
  String.raw`\b(?:every|each) (?:${number} ?|(half )?(?:an )?)(h|hrs?|hours?|m|mins?|minutes?)\b`,
  "i",
)
const lasting = new RegExp(String.raw`\b(?:for|in|over|during) ${span}\b`, "i")
const counted = /\b(once|twice|(?:\d{1,2}|two|three|four|five|six)(?: times| folds| rounds| sets))\b/i
const words: Record<string, number> = { an: 1, once: 1, one: 1, twice: 2, two: 2, three: 3, four: 4, five: 5, six: 6 }

/**
 * What a stage's cue and tip say of folding: "fold every 30 minutes for the first two hours" is every 30 min, 4 times.
 * null where they name no interval, or it is not for folding.
 */
export function foldsIn({
  kind,
  name,
  cue,
  tip,
}: {
  kind: string
  name: string
  cue: string
  tip: string
}): Folds | null {
  const said = `${cue}. ${tip}`
  const match = every.exec(said)
  if (!match || (kind !== "fold" && !/\bfold|\bstretch|\bcoil/i.test(`${name} ${said}`))) return null
  const [, count, half, unit] = match
  const everyMin = (count ? numberIn(count) : half ? 0.5 : 1) * (unit!.startsWith("h") ? 60 : 1)
  if (everyMin < leastMin) return null
  const over = lasting.exec(said)
  const hours = over && numberIn(over[1] ?? over[2]!) + (over[3] ? 0.5 : 0)
  const times = hours ? Math.round((hours * 60) / everyMin) : countIn(said)
  return { everyMin, times: times || null }
}
/** Nobody folds more often; what says so means something else. Our own choice. */
const leastMin = 5

const countIn = (said: string) => {
  const match = counted.exec(said)
  return match ? numberIn(match[1]!.split(" ")[0]!) : null
}
const numberIn = (word: string) => words[word.toLowerCase()] ?? Number(word.replace(",", "."))
