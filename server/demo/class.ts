import { randomUUID } from "node:crypto"
import { asc, eq } from "drizzle-orm"
import { hashPassword, isPassword } from "../accounts/passwords.ts"
import { findBySignInName } from "../accounts/queries.ts"
import { addBakeDay, keepPlan } from "../bake-days/queries.ts"
import { invite, openClass } from "../classes/queries.ts"
import type { Db } from "../db.ts"
import { readPieceMasses } from "../dough/piece-list.ts"
import { remind } from "../follow-up/queries.ts"
import { addFormula, addStagePicture, keepDraft, publish } from "../formulas/queries.ts"
import { addClassIngredient } from "../ingredients/queries.ts"
import type { photoStore } from "../photos/storage.ts"
import { bakeDays, bakes, changes, marks, memberships, photos, readings, revisions, users } from "../schema.ts"
import { type Log, logOf } from "./bake-log.ts"
import { addBringings } from "./bringing.ts"
import { calendarAt } from "./calendar.ts"
import { chance } from "./chance.ts"
import { addCounts } from "./counting.ts"
import { addJudging } from "./judging.ts"
import { addKitchens } from "./kitchens.ts"
import { hall, members, owner, type Person, password } from "./people.ts"
import { drawPicturesOf, drawStagePictures, type Picture } from "./pictures.ts"
import { addReview } from "./review.ts"
import { type Story, stories } from "./stories.ts"
import { addTalk } from "./talk.ts"
import { secondTinLoaf, targetRise, tinLoaf, title, whatChanged } from "./tin-loaf.ts"

type Files = ReturnType<typeof photoStore>
type Demo = { db: Db; photoStore: Files; now: Date; pictures?: boolean }

/** This class as an earlier run left it; undefined when the accounts there are are somebody else's. */
export async function findDemo(db: Db) {
  const found = await findBySignInName(db, owner.signInName)
  if (!found?.isOwner || !(await isPassword(found.passwordHash, password))) return undefined
  const bakeDay = await db.query.bakeDays.findFirst({ orderBy: asc(bakeDays.id), columns: { id: true } })
  return bakeDay && { bakeDayId: bakeDay.id }
}

/**
 * Puts the class into an empty database: everything or, when interrupted, nothing. All that happened lies before `now`.
 * The same but for `now` every time. Without `pictures` nothing is drawn, which takes most of the time.
 */
export async function seedDemo({ db, photoStore, now, pictures = true }: Demo) {
  const days = calendarAt(now)
  const told = stories.map((story, index) => tell(story, index, days, now))
  const drawn: Picture[][] = []
  for (const { story, log, seed } of told) drawn.push(pictures ? await drawPicturesOf(story, log, seed) : [])
  const stagePictures = pictures ? await drawStagePictures() : []
  const passwordHash = await hashPassword(password)

  return db.transaction(async (tx) => {
    const ids = await addPeople(tx, passwordHash)
    const idOf = ({ who }: { who: string }) => ids.get(who)!
    const teacherId = idOf({ who: teacher.signInName })
    const classId = await openFor(tx, teacherId, ids, days.daysAgo(12))

    await addClassIngredient(tx, classId, sproutedRye)

    const { formulaId, first, second } = await writeFormula(tx, teacherId, days.daysAgo(12))
    for (const { stageKey, look, photo } of stagePictures)
      await addStagePicture(tx, photoStore, photo, { formulaId, userId: teacherId, stageKey, look })

    const bakeDayId = await addBakeDay(tx, {
      ...{ classId, revisionId: first, title: "Oat tin loaf, once each", onTableTime: "19:30" },
      ...{ opensOn: days.dayFromNow(-6), closesOn: days.dayFromNow(1), targetDoughC: 24, targetRise },
      lookFor: "How far the jar had risen when you shaped, how warm the dough was by then, and whether the crust tore.",
    })
    const comingId = await addBakeDay(tx, {
      ...{ classId, revisionId: second, title: "Oat tin loaf, again with what we learned", onTableTime: "19:30" },
      ...{ opensOn: days.dayFromNow(8), closesOn: days.dayFromNow(11), targetDoughC: 25, targetRise },
      lookFor: "Whether you can say beforehand when your own kitchen will be ready.",
    })
    await addBringings(tx, { bakeDayId: comingId, ids })
    await addKitchens(tx, { bakeDayId: comingId, ids, dayFromNow: days.dayFromNow })
    for (const [index, { story, log, onTableAt }] of told.entries()) {
      const nth = told.slice(0, index + 1).filter((one) => one.story.who === story.who).length
      const bake = { bakeDayId, revisionId: first, userId: idOf(story), onTableAt }
      await keepPlan(tx, bakeDayId, bake.userId, { onTableAt, variant: "" })
      const bakeId = await addBake(tx, photoStore, bake, story, log, drawn[index]!)
      await addTalk(tx, { who: story.who, bakeId, userId: bake.userId, formulaId, log, ids })
      const { finishedAt } = log
      await addJudging(tx, { who: story.who, nth, bakeId, userId: bake.userId, teacherId, finishedAt, now })
      if (nth === 1) await addCounts(tx, { who: story.who, bakeId, ids, madeAt: finishedAt ?? now })
    }
    const words = "The window closes tomorrow, and a small loaf counts as well."
    const userIds = [ids.get("ivo")!]
    await remind(tx, { bakeDayId, userIds, sentBy: teacherId, words }, days.daysAgo(0.2))
    await addReview(tx, { bakeDayId, ids, now, daysAgo: days.daysAgo })
    return { bakeDayId }
  })
}

/** Something that no list knows. Its figures are our own. */
const sproutedRye = {
  ...{
    name: "Sprouted rye from the mill",
    kind: "inclusion" as const,
    remark: "weighed in class, drained for an hour",
  },
  per100g: { water: 46, fat: 1, sugar: 6, protein: 7, salt: 0 },
  portions: [{ unit: "cup", g: 150 }],
  usAllergens: [],
  euAllergens: ["cereals containing gluten"],
}

const teacher = members.find(({ role }) => role === "instructor")!

/** A story at its place in time; every student has dice of their own, so that changing one leaves the others alone. */
function tell(story: Story, index: number, days: ReturnType<typeof calendarAt>, now: Date) {
  const { zone = hall.zone, temperatureUnit: unit = "C" } = members.find(({ signInName }) => signInName === story.who)!
  const onTableAt = days.wantedAt(story.wanted, zone, tinLoaf.stages)
  const seed = 31 * (index + 1)
  return { story, seed, onTableAt, log: logOf(story, tinLoaf.stages, { onTableAt, now, unit }, chance(seed)) }
}

async function addPeople(db: Db, passwordHash: string) {
  const account = ({ signInName, zone = hall.zone, temperatureUnit, massUnit, clock }: Person) => ({
    ...{ signInName, passwordHash, zone, temperatureUnit, massUnit, clock },
    isOwner: signInName === owner.signInName,
  })
  const rows = await db
    .insert(users)
    .values([owner, ...members].map(account))
    .returning({ id: users.id, signInName: users.signInName })
  return new Map(rows.map(({ id, signInName }) => [signInName, id]))
}

async function openFor(db: Db, teacherId: number, ids: Map<string, number>, joinedAt: Date) {
  const viewer = (await db.query.users.findFirst({ where: eq(users.id, teacherId) }))!
  const classId = await openClass(db, viewer, { ...hall, shownName: teacher.shownName })
  const others = members.filter((member) => member !== teacher)
  await db.insert(memberships).values(
    others.map(({ signInName, shownName, role, allergies }) => ({
      ...(allergies ? { allergies } : {}),
      classId,
      userId: ids.get(signInName)!,
      shownName,
      role: role!,
      joinedAt,
    })),
  )
  await invite(db, classId, "student")
  return classId
}

/** Two revisions, the second being the draft as well; both were published before the first of the class baked. */
async function writeFormula(db: Db, ownerId: number, publishedAt: Date) {
  const formulaId = await addFormula(db, ownerId, { title, content: tinLoaf })
  const { id: first } = await publish(db, formulaId, "First published.")
  await db.update(revisions).set({ publishedAt }).where(eq(revisions.id, first))
  await keepDraft(db, formulaId, { title, content: secondTinLoaf })
  const { id: second } = await publish(db, formulaId, whatChanged)
  return { formulaId, first, second }
}

type NewBake = Pick<typeof bakes.$inferInsert, "bakeDayId" | "revisionId" | "userId" | "onTableAt">

async function addBake(db: Db, files: Files, bake: NewBake, story: Story, log: Log, pictures: Picture[]) {
  const { kitchen, unshared = false, pieces = "", result } = story
  const [row] = await db
    .insert(bakes)
    .values({
      ...{ ...bake, kitchen, ...weighed(pieces), ...result, shared: !unshared },
      ...{ finishedAt: log.finishedAt, abandonedAt: log.abandonedAt },
    })
    .returning({ id: bakes.id })
  const bakeId = row!.id
  if (log.marks.length) await db.insert(marks).values(log.marks.map((mark) => ({ ...mark, bakeId })))
  if (log.readings.length)
    await db.insert(readings).values(log.readings.map((reading) => ({ ...reading, bakeId, entryId: randomUUID() })))
  const changed = story.changed ?? []
  const doneAt = ({ kind, stageKey }: (typeof changed)[number]) =>
    kind === "added" && stageKey ? log.endOf(stageKey) : null
  if (changed.length)
    await db.insert(changes).values(changed.map((change) => ({ ...change, bakeId, doneAt: doneAt(change) })))

  const forClass = !unshared && !story.pictures?.onlyForStaff
  for (const { photo, subject, stageKey, takenAt } of pictures) {
    const id = randomUUID()
    await files.keep(id, photo)
    const { width, height } = photo
    await db.insert(photos).values({
      ...{ id, bakeId, subject, stageKey, takenAt, forClass, width, height, userId: bake.userId },
      acrossMm: story.writes === "sparse" ? null : acrossMm[subject],
    })
  }
  return bakeId
}

/** How wide the drawings are, told from the tin in them. */
const acrossMm: Partial<Record<Picture["subject"], number>> = { crumb: 190, crust: 250 }

function weighed(typed: string) {
  const read = readPieceMasses(typed, "g")
  return "value" in read ? { pieceMassesTyped: typed, pieceMassesG: read.value } : {}
}
