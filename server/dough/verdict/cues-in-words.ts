import { cueWords } from "./cue-words.ts"
import { type CueKey, cues } from "./cues.ts"

/** A cue that words seem to tell, with those words, for a person to confirm. */
export type Suggestion = { key: CueKey; words: string }

/**
 * The cues that free words in English seem to tell, in the order in which they show; suggestions for a person to confirm,
 * never facts by themselves. What is denied ("did not spread") is not suggested, nor what is said of another's bread, of
 * the book or of the plan. `about` says what the words are of, where they do not say it themselves: "levain".
 */
export function cuesInWords(text: string, about?: Subject): Suggestion[] {
  const clauses = clausesOf(text, about)
  return (Object.keys(cues) as CueKey[]).flatMap((key): Suggestion[] => {
    for (const { words, subject } of clauses) {
      if ((cues[key].moment === "levain") !== (subject === "levain") && !namesItself(key)) continue
      const found = cueWords[key]
        .map((pattern) => pattern.exec(words))
        .find((match) => match && !isDenied(words, match))
      if (found) return [{ key, words: words.trim() }]
    }
    return []
  })
}

type Subject = "levain" | "bread"

/** Yeast is told of by name, wherever. */
const namesItself = (key: CueKey) => key === "yeast-flat"

/**
 * Pieces of a sentence that stand by themselves, each with what it speaks of: its own word for it, else that of the piece
 * before in the same sentence.
 */
function clausesOf(text: string, about: Subject = "bread") {
  return text
    .normalize("NFKC")
    .replaceAll("’", "'")
    .split(/(?<!\d)[.!?\n](?!\d)|;/)
    .flatMap((sentence) => {
      let subject = about
      return sentence.split(/,| but | although | though | then | however | – | — /i).map((words) => {
        if (/\b(starter|levain|leaven|sponge|poolish|biga|preferment|sour culture)\b/i.test(words)) subject = "levain"
        if (/\b(dough|loaf|loaves|bread|crumb|crust|boule|bake|baked|rolls?)\b/i.test(words)) subject = "bread"
        return { words, subject }
      })
    })
    .filter(({ words }) => !isOfAnother.test(words))
}

/** Said of somebody else's bread, of the book, or of what was meant. */
const isOfAnother =
  /\banother (?:member|baker|person)|\bother (?:bakers?|people|members?)'|\b(?:book|recipe|formula|instructions?) (?:says?|said|wants?|wanted|calls?|asks?)|\bhad been\b.*\bfor (?:weeks|months|years)|\bsupposed to\b|\bplanned\b|\bwas sure\b|\bafraid\b|\bworried\b/i

/** A denial shortly before the match and outside it, in the same clause. */
function isDenied(words: string, { index }: RegExpExecArray) {
  const before = words.slice(0, index)
  return /\b(?:not|never|no|without|neither|nor|hardly|less|than|isn't|wasn't|weren't|aren't|didn't|doesn't|don't|hasn't|hadn't|cannot|can't|couldn't|wouldn't)\b(?:\s+\w+){0,3}\s*$/i.test(
    before,
  )
}
