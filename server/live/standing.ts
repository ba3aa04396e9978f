import { livingSessions } from "../accounts/sessions.ts"
import { listPeople } from "../classes/queries.ts"
import type { Db } from "../db.ts"
import type { Role } from "../schema.ts"
import type { Follower, Following } from "../web/notices.ts"

export const signedOut = "You have signed out here."
export const hidden = "This is no longer shown to you."

type Standing = { of: Set<Follower>; sessions: Set<string>; roles: Map<number, Role> }

/**
 * What a follower is in a class now; undefined when they have left it, "signed out" when their session has ended. Asked
 * once for all who follow the same thing: two queries a change, however large the class.
 */
export async function roleNow(db: Db, following: Following, classId: number): Promise<Role | "signed out" | undefined> {
  const { follower } = following
  const shared = await following.share("standing", () => standingOf(db, following.everybody(), classId))
  const { sessions, roles } = shared.of.has(follower) ? shared : await standingOf(db, [follower], classId)
  if (!sessions.has(follower.sessionId)) return "signed out"
  return follower.viewer.isOwner ? "instructor" : roles.get(follower.viewer.id)
}

async function standingOf(db: Db, followers: Follower[], classId: number): Promise<Standing> {
  const ids = followers.map(({ sessionId }) => sessionId)
  const people = await listPeople(db, classId)
  return {
    of: new Set(followers),
    sessions: new Set(await livingSessions(db, ids)),
    roles: new Map(people.map(({ userId, role }) => [userId, role])),
  }
}
