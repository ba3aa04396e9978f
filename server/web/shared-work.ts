type Done = { value: Promise<unknown>; at: number }

/** Work that many ask for at the same moment and that is done once for all of them, until `renew` or `keepMs` later. */
export function shareWork(keepMs: number) {
  let done = new Map<string, Done>()
  return {
    renew() {
      done = new Map()
    },
    share<T>(name: string, work: () => Promise<T>): Promise<T> {
      const present = done.get(name)
      if (present && Date.now() - present.at < keepMs) return present.value as Promise<T>
      const value = work()
      const mine = { value, at: Date.now() }
      const into = done.set(name, mine)
      value.catch(() => into.get(name) === mine && into.delete(name))
      return value
    },
  }
}
