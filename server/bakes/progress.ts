import type { Stage } from "../dough/schedule.ts"

type Marked = { stageKey: string; startedAt: Date; endedAt: Date | null }

/**
 * Where a bake stands: the stage that is running (the last begun, should two be open), the stages that have ended, and
 * the one that comes next, which is the first after everything that has been marked. A stage that was skipped is never next.
 */
export function stageNow<Mark extends Marked>(marks: Mark[], stages: Stage[]) {
  const marked = stages.flatMap((stage) => {
    const mark = marks.find(({ stageKey }) => stageKey === stage.key)
    return mark ? [{ stage, mark }] : []
  })
  const open = marked.filter(({ mark }) => mark.endedAt === null)
  const running = open.toSorted((a, b) => +b.mark.startedAt - +a.mark.startedAt)[0]
  const last = marked.at(-1)
  const next: Stage | undefined = stages[last ? stages.indexOf(last.stage) + 1 : 0]
  return { running, next, done: marked.filter(({ mark }) => mark.endedAt !== null) }
}

/** The stage that was running at an instant, the last begun when two were; undefined between stages. */
export function stageKeyAt(marks: Marked[], at: Date): string | undefined {
  const running = marks.filter(({ startedAt, endedAt }) => startedAt <= at && (endedAt === null || at < endedAt))
  return running.toSorted((a, b) => +b.startedAt - +a.startedAt)[0]?.stageKey
}
