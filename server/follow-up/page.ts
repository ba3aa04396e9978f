import type { FastifyRequest } from "fastify"
import { findBakeDay } from "../bake-days/queries.ts"
import { listBakesOf } from "../table/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form } from "../web/forms.ts"
import { betweenRemindersMs, listLastReminders, listStudents, type Reminder } from "./queries.ts"
import { isDue, type Standing, standingOf } from "./standing.ts"

/** Every student of the class, where they stand with the bake day, and when they were last reminded of it. */
export async function listFollowed(request: FastifyRequest, now: Date) {
  const { db } = request.server
  const day = found(await findBakeDay(db, idOf(request)))
  const bakes = await listBakesOf(db, day.id, { viewer: viewerOf(request), role: "instructor" })
  const reminded = new Map((await listLastReminders(db, day.id)).map((reminder) => [reminder.userId, reminder]))
  return (await listStudents(db, day)).map(({ userId, name, joinedAt, onTableAt }) => {
    const theirs = bakes.filter((bake) => bake.userId === userId)
    const standing = standingOf(day, { joinedAt, plan: onTableAt ? { onTableAt } : null, bakes: theirs }, now)
    return { userId, name, standing, ...remindable(standing, reminded.get(userId), now) }
  })
}

function remindable(standing: Standing, reminded: Reminder | undefined, now: Date) {
  const again = reminded ? new Date(+reminded.madeAt + betweenRemindersMs) : now
  return { reminded: reminded ?? null, againAt: again > now ? again : null, due: isDue(standing) }
}

const groups: [Standing["is"], string][] = [
  ["not begun", "Not begun"],
  ["not finished", "Begun, not finished"],
  ["little logged", "Finished, little logged"],
  ["at it", "At it now"],
  ["ahead", "Not yet their time"],
  ["given up", "Given up"],
  ["complete", "Nothing missing"],
]

export async function followUpPage(request: FastifyRequest, form: Form = blank) {
  const now = new Date()
  const students = await listFollowed(request, now)
  return {
    bakeDay: found(await findBakeDay(request.server.db, idOf(request))),
    groups: groups
      .map(([is, title]) => ({ is, title, students: students.filter(({ standing }) => standing.is === is) }))
      .filter(({ students }) => students.length > 0)
      .map((group) => ({ ...group, due: group.students.some(({ due }) => due) })),
    count: students.length,
    canBe: students.filter(({ due, againAt }) => due && !againAt).length,
    form,
    ticked: new Set([form.typed.userId ?? []].flat().map(String)),
  }
}
