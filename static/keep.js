// On every page of somebody signed in: a form of the bench is kept on the phone before anything is sent, so that it
// waits for the network in good order and reaches the server once.
import { entriesOf, errorsIn, fieldsAsObject, formOf, giveBack, hasFieldErrors, isBusy, putAway } from "./keep-form.js"
import { renewRegions } from "./keep-page.js"
import { announce, startSending, status } from "./keep-send.js"
import { setNotice, show } from "./keep-show.js"
import { add, change, list, remove, works } from "./keep-store.js"

const { viewer, name } = document.body.dataset
/** A thumb that lands twice on one button means once. Our own choice. */
const twiceMs = 700
/** A browser that takes longer to keep an entry does not keep it. Our own choice. */
const storingMs = 5000
/** Of a page, those of stages to come among them; each is some 30 kB. Our own choice. */
const mostPictures = 40

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
    entries = await entriesOf(form, submitter, { viewer, name, page: location.pathname })
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
  if (kind === "rested" && answer) await renewPage(entry, answer)
  // what waits should not be cleared away when the phone is full
  if (kind === "rested" && status.trouble) navigator.storage?.persist?.()
  await refresh()
}

async function refuse(entry, answer) {
  const errors = reasonsOf(entry, answer)
  await change(entry.seq, { state: "needs", errors })
  offerAgain({ ...entry, errors })
}

/** Opens the form of a refused entry, where it is and nobody is at work in another. */
function offerAgain(entry) {
  const form = hasFieldErrors(entry) && formOf(entry)
  if (form && !isBusy()) giveBack(entry, form)
  const { id, url, errors } = entry
  tellPage("oven:refused", { id, url, errors })
}

function reasonsOf(entry, { status, html }) {
  if (status === 413) return { "": "That is too large to be sent." }
  if (status === 403 || status === 404) return { "": "That bake is gone, or you may not log in it any more." }
  return errorsIn(new DOMParser().parseFromString(html, "text/html"), entry)
}

/** The answer is the page as the server has it now; where it leads elsewhere, this page is asked for too. */
async function renewPage(entry, answer) {
  const leadsHere = new URL(answer.url, location.href).pathname === location.pathname
  if (leadsHere) await renewRegions(answer)
  else if (entry.page === location.pathname) await renewRegions(await askAgain())
  if (entry.page === location.pathname) tellWorker({ page: location.pathname })
}

async function askAgain() {
  const got = await fetch(location.href).catch(() => undefined)
  return { url: got?.url ?? "", html: got?.ok ? await got.text() : "" }
}

async function tellWaiting() {
  for (const entry of await ofThisPage()) if (entry.state === "waits") tellPage("oven:kept", detailOf(entry))
}

const ofThisPage = async () =>
  (await list()).filter((entry) => entry.viewer === viewer && entry.page === location.pathname)

const control = ":is(input:not([type=hidden]), textarea, select, button)"
const field = `${control}[aria-invalid=true], [aria-invalid=true] ${control}`

document.addEventListener("click", async ({ target }) => {
  const does = target.closest?.("#waiting [data-does]")?.dataset.does
  const seq = Number(target.closest?.("[data-seq]")?.dataset.seq)
  const entry = does && (await list()).find((one) => one.seq === seq)
  if (!entry) return
  const form = formOf(entry)
  if (does === "correct") {
    if (Number(form.dataset.corrects) !== seq) giveBack(entry, form)
    return form.querySelector(field)?.focus()
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
  await tellWaiting()
  for (const entry of await ofThisPage()) if (entry.state === "needs") offerAgain(entry)
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
  const { connection } = navigator
  const pictures = connection?.saveData ? [] : document.body.innerHTML.match(/\/photos\/[\w-]+\/small/g)
  // a page that came before the worker was there is given to it with all it is made of
  const parts = worker?.controller ? [] : performance.getEntriesByType("resource").map(({ name }) => name)
  const page = worker?.controller ? undefined : location.pathname
  tellWorker({ page, assets: [...new Set([...parts, ...(pictures ?? []).slice(0, mostPictures)])] })
})
