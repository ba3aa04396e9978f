import { randomUUID } from "node:crypto"
import type { FastifyInstance, FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { classOfBakeDay, findBakeDay } from "../bake-days/queries.ts"
import { instructorsOf } from "../classes/access.ts"
import { listPeople } from "../classes/queries.ts"
import { wordsFor } from "../table/words.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import type { Form } from "../web/forms.ts"
import { differing } from "./both-texts.ts"
import { layForClass, namedAs } from "./class-view.ts"
import { emptyReview, type ReviewContent } from "./content.ts"
import { keep } from "./keeping.ts"
import { plotsFor } from "./plots.ts"
import { addEdition, findReview, listEditions, type Review, saveDraft, versionOf } from "./queries.ts"
import { problemsOf, readDraft, type Sent, typedOf, withSparePair } from "./typed.ts"

const instructors = { config: { access: instructorsOf(classOfBakeDay) } }

/** Writing a review: what only instructors do. */
export async function writing(app: FastifyInstance) {
  app.get("/bake-days/:id/review/edit", instructors, async (request, reply) => {
    const desk = await deskOf(request)
    const review = await findReview(app.db, desk.bakeDay.id)
    return reply.view("reviews/edit", editPage(desk, openedForm(desk, review, request.query)))
  })

  app.post("/bake-days/:id/review", instructors, async (request, reply) => {
    const desk = await deskOf(request)
    const sent = await save(request, desk)
    if ("refused" in sent) return reply.code(422).view("reviews/edit", editPage(desk, sent.refused))
    return reply.redirect(`/bake-days/${desk.bakeDay.id}/review/edit${placeOf(request.body)}`, 303)
  })

  app.post("/bake-days/:id/review/editions", instructors, async (request, reply) => {
    const desk = await deskOf(request)
    const sent = await save(request, desk)
    if ("refused" in sent) return reply.code(422).view("reviews/edit", editPage(desk, sent.refused))
    const { saved, whatChanged } = sent
    const errors = problemsOf(saved.draft, { first: desk.history.length === 0, whatChanged })
    if (Object.keys(errors).length) {
      const opened = { ...openedForm(desk, saved, {}), form: { typed: typedOf(saved.draft, whatChanged), errors } }
      return reply.code(422).view("reviews/edit", editPage(desk, opened))
    }
    const content = keep(saved.draft, desk, desk.bakeDay)
    await addEdition(app.db, saved.id, { content, whatChanged, publishedBy: viewerOf(request).id })
    return reply.redirect(`/bake-days/${desk.bakeDay.id}/review`, 303)
  })
}

type Desk = Awaited<ReturnType<typeof deskOf>>
/** A form as it stands before somebody: `theirs` is what another form kept meanwhile. */
type Opened = {
  draft: ReviewContent
  form: Form
  formId: string
  basedOn: string
  savedAt: Date | null
  theirs: Review | null
}

/** Everything that may go into the review of a bake day. */
async function deskOf(request: FastifyRequest) {
  const { db } = request.server
  const bakeDay = found(await findBakeDay(db, idOf(request)))
  const laid = await layForClass(db, bakeDay, new Date())
  const people = await listPeople(db, bakeDay.classId)
  const say = sayTo(viewerOf(request))
  const students = people.filter(({ role }) => role === "student")
  return {
    ...{ bakeDay, laid, people, students, say },
    plots: plotsFor(bakeDay, laid),
    history: await listEditions(db, bakeDay.id),
  }
}

const choicesOf = ({ laid, plots, students }: Desk) => ({ bakes: laid.map(({ bake }) => bake), plots, students })

async function save(
  request: FastifyRequest,
  desk: Desk,
): Promise<{ refused: Opened } | { saved: Review; whatChanged: string }> {
  const { db } = request.server
  const sent = readDraft(request.body, choicesOf(desk))
  const draft = { ...sent.draft, saved: { by: viewerOf(request).id, form: sent.formId } }
  if (!sent.good) return { refused: { ...asSent(sent), theirs: null } }
  const outcome = await saveDraft(db, desk.bakeDay.id, { ...sent, draft, now: new Date() })
  if ("theirs" in outcome) return { refused: { ...asSent(sent), theirs: outcome.theirs } }
  return { saved: outcome.saved, whatChanged: sent.whatChanged }
}

const asSent = ({ draft, form, formId, basedOn, whatChanged }: Sent) => ({
  ...{ draft, formId, basedOn, savedAt: null },
  form: { typed: typedOf(draft, whatChanged), errors: form.errors },
})

/** A form that opens on what is kept, with the bakes that were picked elsewhere after those chosen already. */
function openedForm({ bakeDay, laid }: Desk, review: Review | undefined, query: unknown): Opened {
  const kept = review?.draft ?? emptyReview(`${bakeDay.title}: what we saw`)
  const picked = [(query as { bakes?: string | string[] }).bakes ?? []].flat()
  const added = laid.filter(
    ({ bake: { id } }) => picked.includes(String(id)) && kept.bakes.every((one) => one.id !== id),
  )
  const draft = {
    ...kept,
    bakes: [...kept.bakes, ...added.map(({ bake: { id, photos } }) => ({ id, photos: tellingOf(photos) }))],
  }
  const form = { typed: typedOf(draft), errors: {} }
  return {
    draft,
    form,
    formId: randomUUID(),
    basedOn: review ? versionOf(review) : "",
    savedAt: review?.changedAt ?? null,
    theirs: null,
  }
}

/** The photos that are ticked until somebody says otherwise: what the bread became. */
const tellingOf = (photos: { id: string; subject: string }[]) =>
  photos.filter(({ subject }) => subject === "crumb" || subject === "crust").map(({ id }) => id)

function editPage(desk: Desk, { draft, theirs, ...opened }: Opened) {
  const { bakeDay, laid, plots, students, people, history, say } = desk
  const chosen = draft.bakes.flatMap(({ id }) => laid.find(({ bake }) => bake.id === id) ?? [])
  const others = laid.filter((one) => !chosen.includes(one))
  const nameOf = (userId: number | undefined) =>
    people.find((person) => person.userId === userId)?.shownName ?? "Somebody else"
  return {
    ...{ bakeDay, draft, plots, students, history, ...opened },
    choices: [...chosen, ...others].map(({ bake, row }) => ({
      ...{ bake, name: namedAs(bake), chosen: draft.bakes.some(({ id }) => id === bake.id) },
      words: wordsFor(row, bake.name, say, bakeDay.zone),
      photos: draft.bakes.find(({ id }) => id === bake.id)?.photos ?? tellingOf(bake.photos),
    })),
    pairs: withSparePair(draft.pairs),
    left: draft.bakes.length - chosen.length,
    quarrel: theirs && {
      ...{ by: nameOf(theirs.draft.saved?.by), at: theirs.changedAt, version: versionOf(theirs) },
      ...differing(draft, theirs.draft, nameOf),
    },
  }
}

/** Where on the page somebody was when they pressed a button that moves a bake. */
function placeOf(body: unknown) {
  const { move } = (body ?? {}) as { move?: unknown }
  const id = /^(?:earlier|later) (\d{1,9})$/.exec(String(move ?? ""))?.[1]
  return id ? `#choice-${id}` : ""
}
