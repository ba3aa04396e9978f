/** "beat": nothing changed for a while. "over": nothing will ever come again. */
export type Happening = "changed" | "beat" | "over"

/**
 * Somebody who waits for changes, one at a time. Those that come while they are busy count as one, and within `restMs` of
 * the last they wait, so that a class that taps all at once is drawn a few times a second and not two hundred.
 */
export function newWaiting({ beatMs, restMs }: { beatMs: number; restMs: number }) {
  let [changed, over, changedAt] = [false, false, 0]
  let waiting: ((what: Happening) => void) | undefined
  let timer: NodeJS.Timeout | undefined

  function settle(what: Happening) {
    clearTimeout(timer)
    if (what === "changed") [changed, changedAt] = [false, Date.now()]
    const resolve = waiting
    waiting = undefined
    resolve?.(what)
  }
  function settleRested() {
    clearTimeout(timer)
    const restMore = restMs - (Date.now() - changedAt)
    if (restMore <= 0) settle("changed")
    else timer = setTimeout(settle, restMore, "changed")
  }

  return {
    tell(what: "changed" | "over") {
      if (what === "over") over = true
      else changed = true
      if (waiting) over ? settle("over") : settleRested()
    },
    /** The next thing that happens; after `beatMs` of nothing, "beat". */
    next: () =>
      new Promise<Happening>((resolve) => {
        waiting = resolve
        if (over) settle("over")
        else if (changed) settleRested()
        else timer = setTimeout(settle, beatMs, "beat")
      }),
  }
}
