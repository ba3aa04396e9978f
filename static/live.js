// How up to date a page is: live while events come, else it looks for itself, and says which of the two. hx-sse keeps
// the stream open, lets go of it while the page is hidden, and puts in place what comes.
import { renewRegions } from "./keep-page.js"

const stream = document.getElementById("live")
const words = document.getElementById("live-words")

// Our own choices: the server is heard of every 15 s, so after this nothing gets through any more;
const silenceMs = 40_000
// a page that has just come, or come back, gives the stream so long to begin;
const beginningMs = 5000
// and then it looks for itself.
const lookEveryMs = 20_000

let [heardAt, lookedAt, over, down] = [0, Date.now(), "", false]
let patienceUntil = Date.now() + beginningMs

const hears = () => Date.now() - heardAt < silenceMs
const say = (text) => {
  if (words.textContent === text) return
  words.textContent = text
  words.parentElement.querySelector("a").hidden = text === "Live"
}

function heard() {
  ;[heardAt, down] = [Date.now(), false]
  say("Live")
}
function lost() {
  ;[heardAt, patienceUntil, down] = [0, 0, true]
  attend()
}

/** While nothing comes, looks now and then, and tries the stream again. */
async function attend() {
  if (over || document.hidden || hears() || Date.now() < patienceUntil) return
  if (!words.dataset.trouble) say("Looking every 20 s")
  if (Date.now() - lookedAt < lookEveryMs) return
  lookedAt = Date.now()
  if (down) htmx.trigger(stream, "oven:connect")
  await look()
}

async function look() {
  const askedAt = Date.now()
  const answer = await fetch(location.href, { headers: { accept: "text/html" } }).catch(() => undefined)
  const trouble = troubleIn(answer)
  words.dataset.trouble = trouble
  if (trouble) return say(trouble)
  const html = await answer.text()
  // the stream has begun meanwhile and brings what is newer than this
  if (heardAt > askedAt) return
  await renewRegions({ url: answer.url, html })
  if (!hears()) say("Looking every 20 s")
}

function troubleIn(answer) {
  if (!answer) return "No connection"
  if (answer.redirected && new URL(answer.url).pathname !== location.pathname) return "You have signed out here."
  if (answer.status === 404 || answer.status === 403) return "This is no longer shown to you."
  return answer.ok ? "" : "No answer"
}

if (stream && words) {
  stream.addEventListener("beat", heard)
  stream.addEventListener("htmx:sse:after:message", ({ detail }) => {
    if (detail.message.id) stream.dataset.version = detail.message.id
    heard()
  })
  stream.addEventListener("htmx:sse:error", lost)
  stream.addEventListener("htmx:sse:close", () => over || lost())
  stream.addEventListener("over", ({ detail }) => {
    over = detail.data
    say(over)
  })
  // a stream that does not begin is no trouble of the page's: nothing is put up for it
  stream.addEventListener("htmx:error", (event) => {
    event.stopPropagation()
    lost()
  })
  stream.addEventListener("htmx:after:request", (event) => {
    event.preventDefault()
    lost()
  })
  setInterval(attend, 1000)
  document.addEventListener("visibilitychange", () => {
    if (document.hidden)
      return // the stream begins again by itself; what happened meanwhile should not have to wait for it
    ;[heardAt, lookedAt, patienceUntil] = [0, 0, Date.now() + beginningMs]
  })
}
