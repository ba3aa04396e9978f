// The screen stays on while a stage runs. Browsers let go of it whenever the page is hidden, so it is asked for again.
let [lock, asking, deniedAt] = [undefined, false, Number.NEGATIVE_INFINITY]

/** A battery that is low says no; asking every second would not change that. Our own choice. */
const patienceMs = 30_000

export const canHold = () => "wakeLock" in navigator
export const wantsAwake = () => localStorage.getItem("oven-awake") !== "off"
export const setAwake = (on) => (on ? localStorage.removeItem("oven-awake") : localStorage.setItem("oven-awake", "off"))

export async function holdAwake(running) {
  const wanted = running && wantsAwake() && document.visibilityState === "visible"
  if (!wanted) return lock?.release()
  if (!canHold() || lock || asking || Date.now() - deniedAt < patienceMs) return
  asking = true
  try {
    lock = await navigator.wakeLock.request("screen")
    lock.addEventListener("release", () => {
      lock = undefined
    })
  } catch {
    deniedAt = Date.now()
  } finally {
    asking = false
  }
}
