// On every page of somebody signed in: a form of the bench is kept on the phone before anything is sent, so that it
// waits for the network in good order and reaches the server once.
import { entriesOf, errorsIn, fieldsAsObject, formOf, giveBack, isTouched, putAway } from "./keep-form.js"
import { renewRegions } from "./keep-page.js"
import { announce, startSending } from "./keep-send.js"
import { setNotice, show } from "./keep-show.js"
import { add, change, list, remove, works } from "./keep-store.js"

const { viewer, name } = document.body.dataset
/** A thumb that lands twice on one button means once. Our own choice. */
const twiceMs = 700
/** A browser that takes longer to keep an entry does not keep it. Our own choice. */
const storingMs = 5000

const send = startSending(viewer, hear)
const tellPage = (kind, detail) => document.dispatchEvent(new CustomEvent(kind, { detail }))
const refresh = () => list().then(show, () => show([]))

document.addEventListener("submit", (event) => {
  const form = event.target
  if (event.defaultPrevented || !form.matches("form[data-keeps]")) return
  event.preventDefault()
  const again = event.timeStamp - Number(form.dataset.pressed ?? -twiceMs) < twiceMs
  form.dataset.pressed = event.timeStamp
  if (!again) keep(form, event.submitter)
})
document.addEventListener("input", ({ target }) => delete target.form?.dataset.pressed)

async function keep(form, submitter) {
  let entries
  try {
    entries = await entriesOf(form, submitter, { viewer, name })
    await within(storingMs, add(entries, Number(form.dataset.corrects) || undefined))
  } catch (error) {
    return sendDirectly(form, submitter, entries, error)
  }
  putAway(form)
  announce()
  for (const entry of entries) tellPage("oven:kept", detailOf(entry))
  await refresh()
  send()
}

const within = (ms, work) =>
  Promise.race([work, new Promise((_resolve, refuse) => setTimeout(refuse, ms, new Error("It takes too long.")))])

const detailOf = (entry) => {
  const { id, url, words, pressedAt } = entry
  return { id, url, words, pressedAt, fields: fieldsAsObject(entry) }
}

/** Where the browser keeps nothing, a form goes as it would without us. */
async function sendDirectly(form, submitter, entries, error) {
  console.warn("Not kept:", error)
  if (!entries) setNotice("The picture could not be read on this phone. Choose it again.")
  else if (!navigator.onLine)
    setNotice(`${cannotKeep} There is no network now: leave this page open and press the button again later.`)
  if (!entries || !navigator.onLine) return refresh()

  if (submitter?.name) form.append(hidden(submitter.name, submitter.value))
  // should it have been kept after all, both are one
  const number = form.querySelector("[name=entryId]") ?? form.appendChild(hidden("entryId", ""))
  number.value = entries[0].id
  HTMLFormElement.prototype.submit.call(form)
}

const cannotKeep =
  "This browser keeps nothing for this page, as in a private window: what you press is sent at once, and lost where there is no network."
const hidden = (name, value) => Object.assign(document.createElement("input"), { type: "hidden", name, value })

async function hear({ kind, entry, answer }) {
  if (kind === "sent") tellPage("oven:sent", { id: entry.id, url: entry.url })
  if (kind === "refused") await refuse(entry, answer)
  if (kind === "rested" && answer) await renewPage(answer)
  await refresh()
}

async function refuse(entry, answer) {
  const errors = reasonsOf(entry, answer)
  await change(entry.seq, { state: "needs", errors })
  const form = formOf(entry)
  if (form && !isTouched(form)) giveBack({ ...entry, errors }, form)
  tellPage("oven:refused", { id: entry.id, url: entry.url, errors })
}

function reasonsOf(entry, { status, html }) {
  if (status === 413) return { "": "That is too large to be sent." }
  if (status === 403 || status === 404) return { "": "That bake is gone, or you may not log in it any more." }
  return errorsIn(new DOMParser().parseFromString(html, "text/html"), entry)
}

/** The answer is the page as the server has it; what still waits is laid over it again. */
async function renewPage(answer) {
  await renewRegions(answer)
  tellWorker({ page: location.pathname })
  for (const entry of await ofThisPage()) if (entry.state === "waits") tellPage("oven:kept", detailOf(entry))
}

const ofThisPage = async () => {
  const here = `${location.pathname.replace(/\/$/, "")}/`
  return (await list()).filter((entry) => entry.viewer === viewer && entry.url.startsWith(here))
}

document.addEventListener("click", async ({ target }) => {
  const does = target.closest?.("#waiting [data-does]")?.dataset.does
  const seq = Number(target.closest?.("[data-seq]")?.dataset.seq)
  const entry = does && (await list()).find((one) => one.seq === seq)
  if (!entry) return
  const form = formOf(entry)
  if (does === "correct") {
    if (Number(form.dataset.corrects) !== seq) giveBack(entry, form)
    const field =
      form.querySelector("[aria-invalid=true]") ?? form.querySelector("input:not([type=hidden]), textarea, button")
    return field.focus()
  }
  if (does === "discard") {
    await remove(seq)
    if (form && Number(form.dataset.corrects) === seq) putAway(form)
  }
  if (does === "retry") await change(seq, { state: "waits", errors: {} })
  announce()
  await refresh()
  send()
})

// what this phone kept before: once every script of the page is there to hear of it
document.addEventListener("DOMContentLoaded", async () => {
  if (!(await works())) {
    setNotice(cannotKeep)
    return show([])
  }
  for (const entry of await ofThisPage()) {
    if (entry.state === "waits") tellPage("oven:kept", detailOf(entry))
    else {
      const form = formOf(entry)
      if (form && !isTouched(form)) giveBack(entry, form)
      tellPage("oven:refused", { id: entry.id, url: entry.url, errors: entry.errors })
    }
  }
  await refresh()
  send()
})

addEventListener("online", () => send())
addEventListener("offline", refresh)
addEventListener("pageshow", ({ persisted }) => persisted && send())
document.addEventListener("visibilitychange", () => document.hidden || send())

// The worker that opens a bake without network. Browsers have it on https and on localhost alone.
const worker = navigator.serviceWorker
worker?.register("/worker.js").catch((error) => console.warn("No worker:", error))
const tellWorker = (what) => worker?.ready.then(({ active }) => active.postMessage({ viewer, ...what }))

addEventListener("load", () => {
  // a page that came before the worker was there is given to it with all it is made of
  const parts = performance.getEntriesByType("resource").map((one) => one.name)
  tellWorker(worker?.controller ? {} : { page: location.pathname, assets: parts })
})
