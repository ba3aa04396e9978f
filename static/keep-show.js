// Says in #waiting what is kept on this phone, why it is still there, and what somebody has to do about it.
import { timeOf } from "./clock.js"
import { formOf, hasFieldErrors } from "./keep-form.js"
import { status } from "./keep-send.js"

// What is sent within so long is never shown: a list that comes and goes moves the buttons. A picture takes longer, and
// says how far it is. Our own choices.
const soonMs = 2500
const soonOfPictureMs = 500
/** So many are shown at a glance, the last ones; those before are folded, so that the clock stays in sight. */
const atAGlance = 5
/** The service broke on an entry so often that its maker may want to let it go. Our own choice. */
const manyTries = 4

const { viewer, name, at } = document.body.dataset
const cameFromCopy = !navigator.onLine
const isBench = /^\/bakes\/\d+\/?$/.test(location.pathname)
let timer

/** A sentence for the time until this page is left, such as that nothing can be kept. */
let notice = ""
export const setNotice = (words) => {
  notice = words
}

/** Shows `entries`, everybody's that are on this phone; of others' only that there are some. */
export function show(entries) {
  clearTimeout(timer)
  const own = entries.filter((entry) => entry.viewer === viewer)
  const shown = own.filter((entry) => status.trouble || !navigator.onLine || entry.state !== "waits" || isLate(entry))
  if (shown.length < own.length) timer = setTimeout(show, soonOfPictureMs, entries)

  const place = document.getElementById("waiting") ?? makePlace()
  const sentences = [...reasons(shown), ...ofOthers(entries.filter((entry) => entry.viewer !== viewer)), ...limits()]
  fill(
    place.querySelector(".reasons"),
    sentences.map(({ words, link, ...attributes }) => element("p", attributes, words, ...(link ? [" ", link] : []))),
  )
  showItems(place, shown)
  place.hidden = sentences.length === 0 && shown.length === 0
  place.classList.toggle("quiet", sentences.every((one) => one.class === "hint") && shown.length === 0)
}

/** What needs somebody stays in sight. */
function showItems(place, shown) {
  const waiting = shown.filter(({ state }) => state === "waits")
  const folded = waiting.length > atAGlance + 1 ? waiting.slice(0, -atAGlance) : []
  const earlier = place.querySelector("details")
  earlier.hidden = folded.length === 0
  earlier.querySelector("summary").textContent = `${folded.length} earlier ones`
  fill(earlier.querySelector("ul"), folded.map(itemOf))
  fill(place.lastElementChild, shown.filter((entry) => !folded.includes(entry)).map(itemOf))
}

const isLate = ({ pressedAt, multipart }) => Date.now() - Date.parse(pressedAt) > (multipart ? soonOfPictureMs : soonMs)

function makePlace() {
  const place = element("section", { id: "waiting", "aria-label": "Kept on this phone" })
  const earlier = element("details", { hidden: "" }, element("summary"), element("ul"))
  place.append(element("div", { class: "reasons", role: "status" }), earlier, element("ul"))
  document.getElementById("main").prepend(place)
  return place
}

const many = (count) => (count === 1 ? "1 entry is" : `${count} entries are`)

function reasons(shown) {
  const waiting = shown.filter(({ state }) => state === "waits").length
  const kept = `${many(waiting)} kept on this phone`
  const signIn = element("a", { href: `/sign-in?next=${encodeURIComponent(location.pathname)}` }, "Sign in")
  const said = {
    offline: { words: offline(waiting) },
    "no answer": { words: `The service does not answer. ${kept} and sent as soon as it does.` },
    server: { words: `The service has trouble. ${kept} and sent again by itself.` },
    "signed out": { words: `You are signed out. ${kept} until you sign in as ${name}.`, link: signIn },
    "somebody else": {
      words: `Somebody else is signed in on this phone now. ${kept} until ${name} signs in again, and never sent as anybody else’s.`,
      link: signIn,
    },
  }
  const trouble = navigator.onLine ? status.trouble : "offline"
  return said[trouble] && (waiting > 0 || (trouble === "offline" && isBench)) ? [said[trouble]] : []
}

function offline(waiting) {
  const asOf = isBench && cameFromCopy ? `, and this page is as of ${timeOf(new Date(at))}` : ""
  const kept = waiting ? `${many(waiting)} kept on this phone` : "What you log is kept on this phone"
  return `No network${asOf}. ${kept} and sent in order when it is back.`
}

function ofOthers(others) {
  const names = [...new Set(others.map((entry) => entry.name))]
  return names.map((one) => {
    const count = others.filter((entry) => entry.name === one).length
    return {
      words: `${many(count)} kept on this phone for ${one}, until ${one} signs in here. Nothing of it is sent as yours.`,
    }
  })
}

function limits() {
  const said = notice ? [{ words: notice }] : []
  if (!isSecureContext && isBench) {
    said.push({
      class: "hint",
      words:
        "This address begins with http, and only on https do browsers let a page open without network or keep the screen awake. Leave this page open: what you log here is kept, network or not.",
    })
  }
  return said
}

function itemOf(entry) {
  const needs = entry.state === "needs"
  const item = element("li", { "data-seq": entry.seq, "data-state": entry.state })
  item.append(
    element("span", { class: "words" }, entry.words),
    " ",
    element("small", {}, `${timeOf(new Date(entry.pressedAt))} · ${doing(entry)}`),
  )
  if (needs)
    for (const message of new Set(Object.values(entry.errors))) item.append(element("p", { class: "error" }, message))
  if (entry.page !== location.pathname)
    item.append(element("a", { href: entry.page }, needs ? "Open its page to correct it" : "Its page"))
  else if (needs && hasFieldErrors(entry) && formOf(entry)) item.append(button("correct", "Correct it"))
  else if (needs) item.append(button("retry", "Try once more"))
  if (needs || entry.tries > manyTries) item.append(button("discard", `Throw away “${entry.words}”`))
  return item
}

function doing(entry) {
  if (entry.state === "needs") return "needs you"
  if (status.id !== entry.id) return entry.tries > manyTries ? "waiting, the service breaks on it" : "waiting"
  return entry.multipart && status.share < 1 ? `sending, ${Math.round(status.share * 100)} %` : "sending"
}

const button = (does, words) => element("button", { type: "button", class: "quiet", "data-does": does }, words)

function element(tag, attributes = {}, ...inside) {
  const made = document.createElement(tag)
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value)
  made.append(...inside)
  return made
}

/** Leaves alone what is the same, so that a button does not change under a thumb. */
function fill(place, wanted) {
  wanted.forEach((one, at) => {
    const present = place.children[at]
    if (!present) place.append(one)
    else if (!present.isEqualNode(one)) present.replaceWith(one)
  })
  while (place.children.length > wanted.length) place.lastElementChild.remove()
}
