// The bench with a script: a clock that ticks and rings, keypads, and what was tapped shown before the server knows of it.
import { showAtOnce } from "./bench-at-once.js"
import { holdAwake } from "./bench-awake.js"
import { startKeypads } from "./bench-keypad.js"
import { startTimers } from "./bench-timers.js"

const bench = document.querySelector(".bench")

/** The stage that runs, as #now shows it; undefined between stages. */
function stageNow() {
  const data = document.querySelector("#now .clock[data-since]")?.dataset
  return data?.since ? { ...data, key: data.stage, sinceMs: Date.parse(data.since) } : undefined
}

function showClock() {
  const place = document.querySelector("#now .clock[data-since]")
  if (!place?.dataset.since) return
  const seconds = Math.max(0, Math.floor((Date.now() - Date.parse(place.dataset.since)) / 1000))
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60]
  say(place.querySelector("b"), `${hours}:${two(minutes)}`)
  const small = place.querySelector("i") ?? place.appendChild(document.createElement("i"))
  small.setAttribute("aria-hidden", "true")
  say(small, two(seconds % 60))
}

const two = (number) => String(number).padStart(2, "0")
const say = (place, words) => {
  if (place.textContent !== words) place.textContent = words
}

if (bench) {
  bench.dataset.script = ""
  startKeypads(bench)
  const ring = startTimers(document.getElementById("timers"), stageNow)
  const tick = () => {
    showClock()
    ring()
    holdAwake(Boolean(stageNow()))
  }
  showAtOnce(tick)
  setInterval(tick, 1000)
  document.addEventListener("visibilitychange", tick)
  document.addEventListener("htmx:after:swap", tick)
  tick()
}
