// Sends what was kept, one after the other in the order it was logged, from one page at a time.
import { change, list, newId, remove, takeLease } from "./keep-store.js"

// Our own choices: no byte either way for so long, and the network is gone though nobody said so;
const silenceMs = 45_000
// a page that sends is heard of at least so often, or was put to sleep by its phone;
const goneMs = 60_000
const leaseMs = 15_000
// and after a failure the next try waits, ever longer.
const firstPauseMs = 2000
const longestPauseMs = 60_000

const page = newId()
const radio = "BroadcastChannel" in window ? new BroadcastChannel("oven-entries") : undefined
let heardAt = Date.now()

/** Where the queue stands. `trouble` says why nothing goes, `id` and `share` what is going and how much of it is through. */
export const status = { trouble: "", id: "", share: 0 }

/** Other pages of this browser look at the list again. */
export const announce = () => radio?.postMessage("changed")

/**
 * Gives `send`, which sends everything that `viewer` made. `told` hears of { kind: "changed" | "progress" | "sent" |
 * "refused" | "rested" } with the entry, and with the answer that was last.
 */
export function startSending(viewer, told) {
  let [sending, asked, failures, timer] = [false, false, 0, 0]
  const tell = (what) => {
    radio?.postMessage(what.kind)
    return told(what)
  }
  radio?.addEventListener("message", ({ data }) => {
    heardAt = Date.now()
    if (data !== "progress") told({ kind: "changed" })
  })

  async function send({ afresh = true } = {}) {
    asked = true
    if (afresh) failures = 0
    if (sending) return
    sending = true
    clearTimeout(timer)
    try {
      while (asked) {
        asked = false
        await alone(async () => {
          if (await sendAll(viewer, tell)) failures = 0
        })
      }
    } catch (error) {
      console.error(error)
      status.trouble ||= "no answer"
    } finally {
      sending = false
    }
    if (["offline", "no answer", "server"].includes(status.trouble)) {
      failures += 1
      timer = setTimeout(send, pauseAfter(failures), { afresh: false })
    }
  }
  return send
}

// a little at random, or all the phones of a class come back in the same second
const pauseAfter = (failures) =>
  Math.max(status.waitMs, Math.min(longestPauseMs, firstPauseMs * 2 ** (failures - 1)) * (0.75 + Math.random() / 2))

/** Gives whether anything got through. */
async function sendAll(viewer, tell) {
  let [last, through] = [{}, false]
  Object.assign(status, { trouble: "", waitMs: 0 })
  while (!status.trouble) {
    const entry = (await list()).find((one) => one.viewer === viewer && one.state === "waits")
    if (!entry) break
    if (!navigator.onLine) {
      status.trouble = "offline"
      break
    }
    Object.assign(status, { id: entry.id, share: 0 })
    const got = await post(entry, (share) => {
      status.share = share
      tell({ kind: "progress" })
    })
    const outcome = outcomeOf(got)
    status.id = ""
    through ||= outcome === "sent" || outcome === "refused"
    if (outcome === "sent") {
      last = { entry, answer: got }
      await remove(entry.seq)
      await tell({ kind: "sent", entry })
    } else if (outcome === "refused") {
      await tell({ kind: "refused", entry, answer: got })
    } else {
      Object.assign(status, { trouble: outcome, waitMs: got.waitMs })
      if (outcome === "server") await change(entry.seq, { tries: (entry.tries ?? 0) + 1 })
    }
  }
  await tell({ kind: "rested", ...last })
  return through
}

/** "sent", "refused", or why nothing can be sent now. */
function outcomeOf({ status, ours }) {
  if (status === 413) return "refused"
  if (!ours) return "no answer"
  if (status === 401) return "signed out"
  if (status === 409) return "somebody else"
  if (status < 300) return "sent"
  return status >= 500 || [408, 425, 429].includes(status) ? "server" : "refused"
}

/** `ours` tells the service's own answer from that of something in between, which knows nothing of entries. */
function post(entry, progress) {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest() // fetch cannot say how much of a photo is through
    let silence
    const alive = () => {
      clearTimeout(silence)
      silence = setTimeout(() => request.abort(), silenceMs)
    }
    request.open("POST", entry.url)
    request.setRequestHeader("oven-viewer", entry.viewer)
    request.setRequestHeader("oven-pressed-at", entry.pressedAt)
    request.setRequestHeader("oven-sent-at", new Date().toISOString())
    request.upload.onprogress = ({ loaded, total }) => {
      alive()
      progress(total ? loaded / total : 1)
    }
    request.onprogress = alive
    request.onloadend = () => {
      clearTimeout(silence)
      const { status, responseURL: url, responseText: html } = request
      const header = (name) => (status ? request.getResponseHeader(name) : null)
      const waitMs = Number(header("retry-after")) * 1000 || 0
      resolve({ status, url, html, ours: header("oven-version") !== null, waitMs })
    }
    alive()
    request.send(bodyOf(entry))
  })
}

function bodyOf({ id, multipart, fields }) {
  const body = multipart ? new FormData() : new URLSearchParams()
  body.append("entryId", id)
  for (const [name, value] of fields) body.append(name, value)
  return body
}

/** Does it while no other page of this browser does; one that was put to sleep in its turn loses it. */
async function alone(work) {
  if (!navigator.locks) return withLease(work)
  let begun = false
  const turn = () => {
    begun = true
    return work()
  }
  const patience = new AbortController()
  const watch = setInterval(() => {
    if (!begun && !document.hidden && Date.now() - heardAt > goneMs) patience.abort()
  }, 5000)
  heardAt = Date.now()
  try {
    await navigator.locks.request("oven-sending", { signal: patience.signal }, turn)
  } catch (error) {
    if (error.name !== "AbortError") throw error
    // what was begun and taken away is being sent by another page
    if (!begun) await navigator.locks.request("oven-sending", { steal: true }, turn)
  } finally {
    clearInterval(watch)
  }
}

async function withLease(work) {
  while (!(await takeLease(page, leaseMs))) await new Promise((resolve) => setTimeout(resolve, 1000))
  const renewal = setInterval(() => takeLease(page, leaseMs), leaseMs / 4)
  try {
    await work()
  } finally {
    clearInterval(renewal)
    await takeLease(page, 0)
  }
}
