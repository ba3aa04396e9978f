import { eq } from "drizzle-orm"
import type { Db } from "../db.ts"
import type { CueKey } from "../dough/verdict/cues.ts"
import type { FaultKey } from "../dough/verdict/explanations.ts"
import { judgedBake } from "../judgements/judged.ts"
import { modelIn } from "../judgements/page.ts"
import { addJudgement } from "../judgements/queries.ts"
import { bakes, users } from "../schema.ts"

type Word = { call: "under" | "well" | "over" | "unsure"; explanation?: FaultKey; words?: string }
/** What one student ticked of their bread, what they said of it, and what the instructor did. */
type Judged = { who: string; nth?: number; saw: CueKey[]; said?: Word; marta?: Word }

const judged: Judged[] = [
  {
    who: "amparo",
    saw: ["airy", "great-spring", "fine-and-even", "tastes-good"],
    said: { call: "well", words: "Nothing to change but the knife." },
    marta: { call: "well", words: "The one to show next time." },
  },
  {
    who: "bodil",
    saw: ["rose-well", "some-spring", "fine-and-even"],
    said: { call: "well" },
    marta: { call: "under", words: "A touch young: the crumb is tight under the crust. Ten minutes more in the tin." },
  },
  {
    who: "caspar",
    saw: ["overflowed", "sank-in-the-oven", "sunken-top", "coarse"],
    said: { call: "over", words: "Next time by the jar and not by the clock." },
    marta: { call: "over" },
  },
  {
    who: "delphine",
    saw: ["stood-too-long", "slack-at-the-end", "sunken-top", "sharply-sour"],
    said: { call: "over", words: "The tram." },
    marta: { call: "over", words: "And the flour at the bench could not save it any more." },
  },
  {
    who: "eamon",
    saw: ["little-rise", "split-side", "caverns", "tight-and-wet"],
    said: { call: "under" },
    marta: { call: "under", words: "Right by the clock, and the cellar keeps its own time." },
  },
  {
    who: "farida",
    saw: ["levain-sluggish", "little-rise", "never-filled-the-tin", "dense"],
    said: { call: "unsure", explanation: "levain weak", words: "Was it the levain?" },
    marta: { call: "under", explanation: "levain weak", words: "It was. Feed it twice before it has to work." },
  },
  {
    who: "juno",
    saw: ["rose-well", "great-spring", "fine-and-even"],
    said: { call: "over", words: "It stood over the rim, so I thought I had gone too far." },
    marta: { call: "well", words: "Just over the rim is where it belongs." },
  },
  {
    ...{ who: "caspar", nth: 2 },
    saw: ["rose-well", "great-spring", "fine-and-even"],
    said: { call: "well", words: "One change, and another bread." },
  },
  { who: "kasimir", saw: [], said: { call: "well" }, marta: { call: "well", words: "Bring the thermometer." } },
]

type Place = {
  who: string
  nth: number
  bakeId: number
  userId: number
  teacherId: number
  finishedAt: Date | undefined
  now: Date
}

/** What was seen of one bake and said of it; each word has the verdict of that moment with it. */
export async function addJudging(db: Db, { who, nth, bakeId, userId, teacherId, finishedAt, now }: Place) {
  const theirs = judged.find((one) => one.who === who && (one.nth ?? 1) === nth)
  if (!theirs || !finishedAt) return
  await db.update(bakes).set({ vessel: "tin", cues: theirs.saw }).where(eq(bakes.id, bakeId))
  const teacher = (await db.query.users.findFirst({ where: eq(users.id, teacherId) }))!
  const { row } = await judgedBake(db, teacher, bakeId, now)
  const word = { bakeId, model: modelIn(row) }
  const after = (hours: number) => new Date(Math.min(+finishedAt + hours * 3_600_000, +now))
  if (theirs.said) await addJudgement(db, { ...word, ...theirs.said, by: "baker", userId, madeAt: after(2) })
  if (theirs.marta)
    await addJudgement(db, { ...word, ...theirs.marta, by: "instructor", userId: teacherId, madeAt: after(9) })
}
