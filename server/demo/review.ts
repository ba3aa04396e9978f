import { findBakeDay } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import { type Laid, layForClass } from "../reviews/class-view.ts"
import { emptyReview, type ReviewContent } from "../reviews/content.ts"
import { keep } from "../reviews/keeping.ts"
import { plotsFor } from "../reviews/plots.ts"
import { addEdition, addReviewComment, saveDraft } from "../reviews/queries.ts"

type Place = { bakeDayId: number; ids: Map<string, number>; now: Date; daysAgo: (days: number) => Date }

/** What the instructor made of the bake day, the correction of the day after, and what a student said to it. */
export async function addReview(db: Db, { bakeDayId, ids, now, daysAgo }: Place) {
  const bakeDay = (await findBakeDay(db, bakeDayId))!
  const laid = await layForClass(db, bakeDay, now)
  const draft = writtenOf(laid, ids)
  const publishedBy = ids.get("marta")!
  const publish = async (content: ReviewContent, whatChanged: string, publishedAt: Date) => {
    const outcome = await saveDraft(db, bakeDayId, { draft: content, basedOn: "", over: "", now: publishedAt })
    if (!("saved" in outcome)) throw new Error("Somebody else writes the demo's review.")
    const kept = keep(content, { laid, plots: plotsFor(bakeDay, laid) }, bakeDay)
    await addEdition(db, outcome.saved.id, { content: kept, whatChanged, publishedBy, publishedAt })
    return outcome.saved.id
  }
  const first = { ...draft, words: words.replace(corrected, wasWrong), saved: { by: publishedBy, form: "demo" } }
  await publish(first, "", daysAgo(0.8))
  const reviewId = await publish({ ...draft, saved: first.saved }, whatChanged, daysAgo(0.1))
  const said = { reviewId, userId: ids.get("eamon")!, words: "So I should have moved the bowl, not the clock." }
  await addReviewComment(db, said)
}

const corrected = "Farida’s dough was as warm as Amparo’s and had the same hours. Her levain had not doubled."
const wasWrong = "Farida’s dough was as warm as Amparo’s and stood nearly as long. It must have been the flour."
const whatChanged = "It was not Farida’s flour: her levain had not doubled before it went in."

const words = `One formula, kitchens from 18 °C to 30 °C. **The plan was right for a kitchen at 24 °C, and for no other.**

## What the warm kitchens show

Caspar took the long end of the range, and his dough was far over. Juno, nearly as warm, shaped an hour and a half earlier, when the jar was there.

## What the cold ones show

Eamon kept to the minute and his crumb is tight, with a few caves. Bodil began early, waited for the jar, and has good bread.

## And one that was neither

${corrected}

- A jar beside the bowl tells more than the plan.
- A levain that has not doubled is not ready, whatever its hours.`

const nextTime = `Mix for a dough at 25 °C and say beforehand when your own kitchen will be ready.
Shape when the jar is at the mark, not when the plan says so.
Let the levain double before it goes in.`

/** Chosen, in this order. */
const chosen = ["amparo", "juno", "caspar", "eamon", "bodil", "farida"]
const pairs = [
  {
    of: ["eamon", "caspar"],
    why: "A cellar at 18 °C and a veranda at 28 °C, both by the clock: one dough had too little, the other far too much.",
  },
  { of: ["amparo", "farida"], why: "Equally warm and equally long. Only the levain was another." },
]
const forStudents = [
  {
    who: "farida",
    words: "It was not you. Feed it twice, a day apart, and bake again: I should like to see the second crumb.",
  },
  {
    who: "caspar",
    words: "You logged every degree. Trust your jar next time; it told you an hour before the clock did.",
  },
]

function writtenOf(laid: Laid[], ids: Map<string, number>): ReviewContent {
  const bakeOf = (who: string | undefined) => laid.find(({ bake }) => bake.userId === ids.get(who ?? ""))?.bake
  return {
    ...emptyReview("The jar was right and the clock was not"),
    ...{ words, nextTime },
    bakes: chosen.flatMap((who) => {
      const bake = bakeOf(who)
      const telling = bake?.photos.filter(({ subject }) => subject === "crumb" || subject === "crust") ?? []
      return bake ? [{ id: bake.id, photos: telling.map(({ id }) => id) }] : []
    }),
    pairs: pairs.map(({ of: [left, right], why }) => ({
      why,
      left: bakeOf(left)?.id ?? null,
      right: bakeOf(right)?.id ?? null,
    })),
    plots: ["causes", "time-temperature", "rises"],
    forStudents: forStudents.map(({ who, words }) => ({ userId: ids.get(who)!, words })),
  }
}
