// A hot function is compiled anew several times; half a second is past that.
const untilWarmUs = 500_000

/** Processor time of one call: the best of eight rounds, once the code has run for a while. */
export function microseconds(run: () => unknown) {
  const warm = spent(run, untilWarmUs)
  return Math.min(...Array.from({ length: 8 }, () => spent(run, 20 * warm)))
}

/** Processor time a call, over as many calls as take so long together. */
function spent(run: () => unknown, atLeastUs: number) {
  const before = process.cpuUsage()
  for (let calls = 1; ; calls++) {
    run()
    const { user, system } = process.cpuUsage(before)
    if (user + system >= atLeastUs && calls >= 20) return (user + system) / calls
  }
}
