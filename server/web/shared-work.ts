type Done = { value: Promise<unknown>; at: number; of: string }

/** Work that many ask for at the same moment, and that is done once for all of them. */
export function shareWork(keepMs: number) {
  let done = new Map<string, Done>()
  const kept = new Map<string, Done>()

  function once<T>(among: Map<string, Done>, name: string, of: string, work: () => Promise<T>): Promise<T> {
    const value = work()
    const mine = { value, at: Date.now(), of }
    among.set(name, mine)
    // a failure is nobody's answer but theirs who waited for it
    value.catch(() => among.get(name) === mine && among.delete(name))
    return value
  }

  return {
    /** Something changed: what was shared is out of date. */
    renew() {
      done = new Map()
    },
    /** What `work` gives, for everybody who asks under this name until `renew` or `keepMs` later. */
    share<T>(name: string, work: () => Promise<T>): Promise<T> {
      const present = done.get(name)
      if (present && Date.now() - present.at < keepMs) return present.value as Promise<T>
      return once(done, name, "", work)
    },
    /** The same for as long as it is made `of` the same, whatever else changed. */
    shareOf<T>(name: string, of: string, work: () => Promise<T>): Promise<T> {
      const present = kept.get(name)
      return present?.of === of ? (present.value as Promise<T>) : once(kept, name, of, work)
    },
  }
}
