// What rings while a stage runs: its shortest and its planned end, folds, and what somebody sets. Kept for each bake and
// stage on this phone, so that a page that was closed or killed still knows what it has told and what it owes.
import { canHold, setAwake, wantsAwake } from "./bench-awake.js"
import { canRing, ring, stopRinging, unlock } from "./bench-ring.js"
import { timeOf } from "./clock.js"

const minute = 60_000
const store = `oven-timers-${/\d+/.exec(location.pathname)?.[0]}`

const listAll = () => JSON.parse(localStorage.getItem(store) ?? "{}")
function change(stageKey, changes) {
  const all = listAll()
  all[stageKey] = { told: [], seenAt: Date.now(), ...all[stageKey], ...changes }
  localStorage.setItem(store, JSON.stringify(all))
  return all[stageKey]
}

/** Gives what is to be called every second; `stageNow` says which stage runs. */
export function startTimers(place, stageNow) {
  if (!place) return () => {}
  listenTo(place, stageNow)
  return () => {
    const stage = stageNow()
    place.hidden = !stage
    if (stage) attend(place, stage)
  }
}

function attend(place, stage) {
  const kept = listAll()[stage.key] ?? change(stage.key, {})
  const now = Date.now()
  const dues = duesOf(stage, kept, now).filter(({ id }) => !kept.told.includes(id))
  const late = dues.filter(({ at }) => at <= now)
  if (late.length) {
    change(stage.key, { told: [...kept.told, ...late.map(({ id }) => id)] })
    // of several folds that were missed the last is enough
    const told = late.filter((due, index) => !due.kind || !late.slice(index + 1).some(({ kind }) => kind === due.kind))
    for (const due of told) tell(place, due, now)
  }
  say(place.querySelector(".due"), comingUp(dues.filter(({ at }) => at > now)))
}

/** Everything that rings in a stage, what is past too as far as this phone has known of the stage. */
function duesOf(stage, kept, now) {
  const { name, sinceMs } = stage
  const [low, high] = [Number(stage.low), Number(stage.high)]
  const [shortest, longest, planned] = [sinceMs + low * minute, sinceMs + high * minute, Date.parse(stage.planned)]
  const dues = [
    {
      id: "low",
      at: shortest,
      short: "shortest time over",
      words:
        low < high
          ? `${name}: ${spoken(low)} are over, the shortest time. Look at the dough.`
          : `${name}: its ${spoken(low)} are over.`,
    },
    ...(planned > shortest + 2 * minute
      ? [
          {
            id: "planned",
            at: planned,
            short: "planned end",
            words: `${name} was planned to end at ${timeOf(planned)}.`,
          },
        ]
      : []),
    ...(high > low
      ? [
          {
            id: "high",
            at: longest,
            short: "longest time over",
            words: `${name}: ${spoken(high)} are over, the longest time.`,
          },
        ]
      : []),
    ...(kept.once
      ? [
          {
            id: `once ${kept.once.at}`,
            at: kept.once.at,
            short: "as you set",
            words: `${name}: the ${spoken(kept.once.min)} you set are over.`,
          },
        ]
      : []),
    ...repeated(stage, kept, now),
  ]
  return dues.filter(({ at }) => at >= kept.seenAt).sort((a, b) => a.at - b.at)
}

/** The folds that the stage's words ask for, or the interval somebody set: those that are past, and the next. */
function repeated({ name, sinceMs, every, times }, { every: set }, now) {
  if (set === "off" || (!set && !every)) return []
  const { min, from } = set ?? { min: Number(every), from: sinceMs }
  const next = Math.floor((now - from) / (min * minute)) + 1
  const last = !set && times ? Math.min(next, Number(times)) : next
  return Array.from({ length: Math.max(0, last) }, (_, index) => index + 1)
    .slice(-3)
    .map((count) => ({
      id: `every ${from} ${min} ${count}`,
      kind: "every",
      at: from + count * min * minute,
      short: set ? `every ${min} min` : `fold ${count}${times ? ` of ${times}` : ""}`,
      words: set ? `${name}: ${spoken(min)} again.` : `${name}: time for fold ${count}${times ? ` of ${times}` : ""}.`,
    }))
}

function spoken(minutes) {
  const [hours, rest] = [Math.floor(minutes / 60), Math.round(minutes % 60)]
  return [hours && `${hours} h`, (rest || !hours) && `${rest} min`].filter(Boolean).join(" ")
}

const comingUp = (dues) =>
  dues.length
    ? `Rings ${dues
        .slice(0, 3)
        .map(({ at, short }) => `${timeOf(at)} ${short}`)
        .join(", ")}`
    : ""

function tell(place, { id, at, words }, now) {
  const lateMin = Math.floor((now - at) / minute)
  const said = lateMin < 1 ? words : `${words} It was due ${spoken(lateMin)} ago.`
  const alert = document.createElement("p")
  const stop = Object.assign(document.createElement("button"), { type: "button", textContent: "Heard" })
  stop.dataset.stops = ""
  alert.append(Object.assign(document.createElement("b"), { textContent: said }), " ", stop)
  place.querySelector(".alerts").append(alert)
  ring({ id, words: said, sound: localStorage.getItem("oven-sound") !== "off" })
}

function listenTo(place, stageNow) {
  const minutes = place.querySelector("#ring-min")
  const [sound, awake] = ["sound", "awake"].map((name) => place.querySelector(`[data-setting=${name}]`))
  const asks = place.querySelector("[data-asks]")
  sound.checked = localStorage.getItem("oven-sound") !== "off"
  awake.checked = wantsAwake()
  sayLimits(place, asks, awake)

  document.addEventListener("pointerdown", unlock, { once: true })
  sound.addEventListener("change", () => localStorage.setItem("oven-sound", sound.checked ? "on" : "off"))
  awake.addEventListener("change", () => setAwake(awake.checked))
  asks.addEventListener("click", async () => {
    await Notification.requestPermission()
    sayLimits(place, asks, awake)
  })
  place.addEventListener("click", ({ target }) => {
    if (target.closest("[data-stops]")) {
      target.closest("p").remove()
      stopRinging()
    }
    const rings = target.closest("[data-rings]")?.dataset.rings
    if (rings) set(rings, Number.parseInt(minutes.value, 10), stageNow())
  })
}

function set(rings, min, stage) {
  if (!stage) return
  if (rings === "off") return change(stage.key, { every: "off", once: undefined })
  // a minute at least, a day at most: what is beyond is a slip
  if (!(min >= 1 && min <= 1440)) return
  const now = Date.now()
  change(stage.key, rings === "once" ? { once: { min, at: now + min * minute } } : { every: { min, from: now } })
}

/** What cannot work here, and why, in one sentence. */
function sayLimits(place, asks, awake) {
  const asked = "Notification" in window ? Notification.permission : "denied"
  asks.hidden = asked !== "default" || !isSecureContext
  awake.closest("p").hidden = !canHold()
  const limits = !isSecureContext
    ? "This address begins with http, and there a browser lets no page keep the screen on or ring through while you look at something else: leave this page open in front."
    : !canHold()
      ? "This browser cannot keep the screen on."
      : ""
  say(place.querySelector(".limits"), canRing() ? limits : `${limits} This browser has no sound for pages.`.trim())
}

const say = (where, words) => {
  if (where.textContent !== words) where.textContent = words
}
