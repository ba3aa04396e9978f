// What was logged and is not on the server yet, in IndexedDB: it outlives the page, the browser and the battery.
import { createStore, get, promisifyRequest, update } from "idb-keyval"

const open = createStore("common-oven", "entries")

/** A transaction that is on the disk when it says so; browsers may otherwise leave it to the system for a while. */
async function entries(mode, work) {
  const db = await open("readonly", (store) => store.transaction.db)
  return work(db.transaction("entries", mode, { durability: "strict" }).objectStore("entries"))
}

/** Everything that waits, whoever made it, in the order it was made. */
export const list = () => entries("readonly", (store) => promisifyRequest(store.getAll()))

/** Keeps new entries at the end, all or none; `instead` is the seq of one that they correct. */
export const add = (made, instead) =>
  entries("readwrite", (store) => {
    const last = store.openKeyCursor(null, "prev")
    last.onsuccess = () => {
      const before = last.result?.key ?? 0
      made.forEach((entry, at) => {
        entry.seq = before + at + 1
        store.put(entry, entry.seq)
      })
      if (instead) store.delete(instead)
    }
    return promisifyRequest(store.transaction)
  })

export const change = (seq, values) =>
  entries("readwrite", (store) => {
    const found = store.get(seq)
    found.onsuccess = () => found.result && store.put({ ...found.result, ...values }, seq)
    return promisifyRequest(store.transaction)
  })

export const remove = (seq) =>
  entries("readwrite", (store) => {
    store.delete(seq)
    return promisifyRequest(store.transaction)
  })

/** Whether this browser keeps anything for us; a private window may not. */
export const works = () =>
  list().then(
    () => true,
    () => false,
  )

/** A version 4 UUID. On a plain-http address browsers have no randomUUID. */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6] & 0x0f) | 0x40
  bytes[8] = (bytes[8] & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("")
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5")
}

const leases = createStore("common-oven-sending", "lease")

/** Whether `page` alone may send for the next `ms`, where browsers have no locks: one that vanished lets go by itself. */
export async function takeLease(page, ms) {
  const now = Date.now()
  const free = (held) => !held || held.page === page || held.until < now
  await update("sender", (held) => (free(held) ? { page, until: now + ms } : held), leases)
  return (await get("sender", leases)).page === page
}
