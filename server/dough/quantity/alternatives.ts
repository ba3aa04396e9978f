import { weighTotal } from "./combine.ts"
import type { Total } from "./grammar.ts"
import type { Token } from "./tokens.ts"
import { alike, areIn, asks, type Kitchen, type Reading, type Weighed } from "./weighed.ts"

type Told = { text: string; qualities: string[]; reading: Reading }
type Readable = Told & { reading: Weighed }

// Two tablespoons and two packets of the same yeast are no alternatives to each other. Our own limit.
const apart = 0.1

/** One of the amounts of "25 g fresh or 8 g instant", never their sum. */
export function chooseOne(totals: Total[], words: Token[], kitchen: Kitchen): Reading {
  const told = totals.map((total, index) => tell(total, totals[index + 1], words, kitchen))
  const readable = told.filter((one): one is Readable => one.reading.is !== "asks")
  const [first] = told
  if (told.length === 1 && first) return first.reading
  const best = pick(readable, kitchen)
  if (!best) return first?.reading ?? asks("Give one amount.")
  const others = readable.filter((one) => one !== best)
  const drafts = (list: Told[]) => list.map(({ text, qualities }) => wholly(text, qualities, kitchen))
  if (sameThing(told, kitchen) && others.some(({ reading }) => !agree(reading, best.reading)))
    return asks("The alternatives are not the same amount. Which one is it?", drafts([best, ...others]))
  const said = `One of the alternatives counts: “${[best.text, ...best.qualities].join(" ")}”.`
  return { ...best.reading, said: [said, ...best.reading.said], drafts: [...drafts(others), ...best.reading.drafts] }
}

function tell(total: Total, following: Total | undefined, words: Token[], kitchen: Kitchen): Told {
  const until = following?.start ?? kitchen.text.length
  const own = words.filter(({ start }) => start >= total.start && start < until)
  const text = kitchen.text.slice(total.start, total.end)
  return { text, qualities: own.map((word) => word.text.toLowerCase()), reading: weighTotal(total, kitchen) }
}

const wholly = (text: string, qualities: string[], kitchen: Kitchen) => ({
  label: [text, ...qualities].join(" "),
  edits: [{ start: 0, end: kitchen.text.length, text }],
})

/** How many words say that it is of this very ingredient; none, if one of them says something else. */
function own({ qualities }: Told, kitchen: Kitchen) {
  return qualities.every((word) => areIn(word, kitchen.words)) ? qualities.length : 0
}

/** The one that speaks of this very ingredient; else one by weight; else the first. */
function pick(readable: Readable[], kitchen: Kitchen): Readable | undefined {
  const most = Math.max(0, ...readable.map((one) => own(one, kitchen)))
  const named = readable.filter((one) => own(one, kitchen) === most)
  const byWeight = sameThing(named, kitchen)
    ? named.find(({ reading }) => reading.by !== "other" && reading.by !== "volume")
    : undefined
  return byWeight ?? named[0]
}

/** Whether nothing but the amount tells the alternatives apart. */
function sameThing(told: Told[], kitchen: Kitchen) {
  const kinds = told.map(({ qualities }) => qualities.filter((word) => !areIn(word, kitchen.words)).join(" "))
  const named = new Set(kinds.filter(Boolean))
  return named.size === 0 || (kitchen.words.length === 0 && named.size === 1)
}

const agree = (one: Weighed, other: Weighed) =>
  one.is === other.is && alike(one.low, other.low, apart) && alike(one.high, other.high, apart)
