import { timeOf } from "./clock.js"

// What was kept on this phone is shown as if the server had said so already, until it has.
const kept = new Map()
/** How long a stage had run when it was ended here, for whoever goes on with it. */
const ranMs = new Map()
/** What #now held as the server had it, for when an entry is refused. */
let former

/** `shown` is called when the page has changed. */
export function showAtOnce(shown) {
  document.addEventListener("oven:kept", ({ detail }) => {
    kept.set(detail.id, detail)
    show(shown)
  })
  document.addEventListener("oven:sent", ({ detail }) => kept.delete(detail.id))
  document.addEventListener("oven:refused", ({ detail }) => {
    if (kept.delete(detail.id)) takeBack()
    show(shown)
  })
  // what was swapped in may not know of it yet
  document.addEventListener("htmx:after:swap", () => kept.size && show(shown))
}

function show(shown) {
  const entries = [...kept.values()].filter(({ url }) => url.startsWith(`${location.pathname.replace(/\/$/, "")}/`))
  const mark = entries.findLast(({ url }) => url.endsWith("/marks"))
  if (mark) showMark(mark)
  for (const reading of entries.filter(({ url }) => url.endsWith("/readings"))) showReading(reading)
  shown()
}

function takeBack() {
  const now = document.getElementById("now")
  if (!now?.dataset.shows) return
  now.replaceChildren(...former)
  delete now.dataset.shows
}

function showMark({ id, fields, pressedAt }) {
  const now = document.getElementById("now")
  if (!now || now.dataset.shows === id) return
  const { stageKey, action, at = "" } = fields
  const agoMs = minutesIn(at) * 60_000
  const atMs = Date.parse(pressedAt) - agoMs
  const running = templateOf("running", stageKey)
  const { since } = now.querySelector(".clock")?.dataset ?? {}
  if (action === "end" && since) ranMs.set(stageKey, atMs - Date.parse(since))
  const then = running?.dataset.then
  const template = action === "end" ? (then ? templateOf("next", then) : templateOf("done")) : running
  if (!template) return

  const hadFocus = now.contains(document.activeElement)
  if (!now.dataset.shows) former = [...now.childNodes]
  now.replaceChildren(template.content.cloneNode(true))
  now.dataset.shows = id
  const ran = action === "resume" ? (ranMs.get(stageKey) ?? Number(running.dataset.ran) * 60_000) : 0
  if (action !== "end") begin(now, Number.isFinite(atMs) ? new Date(atMs - ran) : undefined, at)
  if (!hadFocus) return
  const heading = now.querySelector("h1")
  heading.tabIndex = -1
  heading.focus({ preventScroll: true })
}

const templateOf = (state, stage) =>
  document.querySelector(`template[data-now="${state}"]${stage ? `[data-stage="${CSS.escape(stage)}"]` : ""}`)

function begin(now, since, words) {
  if (since) now.querySelector(".clock").dataset.since = since.toISOString()
  else now.querySelector(".clock b").textContent = "–:––"
  now.querySelector("[data-began]").textContent = since ? timeOf(since) : words
}

/** The minutes in "20 min ago", as the buttons beside the field say it; 0 for at once, NaN where only the server knows. */
function minutesIn(words) {
  if (!words) return 0
  return words === "an hour ago" ? 60 : Number(/^(\d+) min ago$/.exec(words)?.[1] ?? Number.NaN)
}

function showReading({ fields, pressedAt }) {
  const tile = document.getElementById(`reading-${fields.kind}`) ?? document.getElementById("reading-other")
  const [value, behind] = [tile?.querySelector(".last b"), tile?.querySelector(".last small")]
  if (!value || !behind) return
  value.textContent = wordsOf(fields, tile)
  value.className = value.textContent.length > 12 ? "long" : ""
  const minutes = Math.floor((Date.now() - Date.parse(pressedAt)) / 60_000)
  const when = fields.takenAt || (minutes < 1 ? "just now" : `${minutes} min ago`)
  const known = fields.known && fields.known !== "measured" ? fields.known : ""
  behind.textContent = [known, when].filter(Boolean).join(" · ")
}

function wordsOf({ kind, value = "", startHeight = "" }, tile) {
  if (kind === "finger") return tile.querySelector(`button[value="${CSS.escape(value)}"]`)?.textContent ?? value
  if (kind === "note") return value
  if (kind === "ph") return `pH ${value}`
  const isBare = /^[-−+\d.,\s]+$/.test(value)
  if (kind !== "rise") return isBare ? `${value} ${tile.querySelector(".unit")?.textContent ?? ""}` : value
  const [now, start] = [value, startHeight].map((text) => Number.parseFloat(text.replace(",", ".")))
  if (!isBare || !(start > 0)) return value
  const share = Math.round((now / start - 1) * 100)
  return `${share < 0 ? "−" : "+"}${Math.abs(share)} %`
}
