import { pausedMin, type Stage } from "../dough/schedule.ts"
import type { Pause } from "../schema.ts"

type Marked = { stageKey: string; startedAt: Date; endedAt: Date | null; pauses?: Pause[] }

/**
 * Where a bake stands: the stage that is running (the last begun, should two be open), the stages that have ended, the
 * one that can be gone on with (the last to end, while none is running), and the one that comes next, which is the first
 * after everything that has been marked. A stage that was passed over, or is among the `skipped`, is never next.
 */
export function stageNow<Mark extends Marked>(marks: Mark[], stages: Stage[], skipped: string[] = []) {
  const marked = stages.flatMap((stage) => {
    const mark = marks.find(({ stageKey }) => stageKey === stage.key)
    return mark ? [{ stage, mark }] : []
  })
  const open = marked.filter(({ mark }) => mark.endedAt === null)
  const running = open.toSorted((a, b) => +b.mark.startedAt - +a.mark.startedAt)[0]
  const done = marked.filter(({ mark }) => mark.endedAt !== null)
  const ended = running ? undefined : done.toSorted((a, b) => +b.mark.endedAt! - +a.mark.endedAt!)[0]
  const last = marked.at(-1)
  const next = stages.slice(last ? stages.indexOf(last.stage) + 1 : 0).find(({ key }) => !skipped.includes(key))
  return { running, ended, next, done }
}

/** The stage that was running at an instant, the last begun when two were; undefined between stages and in a pause. */
export function stageKeyAt(marks: Marked[], at: Date): string | undefined {
  const running = marks.filter(
    ({ startedAt, endedAt, pauses = [] }) =>
      startedAt <= at && (endedAt === null || at < endedAt) && !pauses.some((pause) => isIn(pause, at)),
  )
  return running.toSorted((a, b) => +b.startedAt - +a.startedAt)[0]?.stageKey
}
const isIn = ({ from, to }: Pause, at: Date) => at >= new Date(from) && (to === null || at < new Date(to))

/** The minutes a stage has run, or did run, its pauses left out. */
export function ranMin({ startedAt, endedAt, pauses = [] }: Marked, now: Date) {
  const until = endedAt ?? now
  return Math.max(0, (+until - +startedAt) / 60_000 - pausedMin(pauses, until))
}
