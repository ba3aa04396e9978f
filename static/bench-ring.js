// How a timer makes itself heard: a tone of our own, the phone's buzz, and a note above other apps where that was allowed.

/** Rings so often, so long apart, until somebody says that they heard. Our own choice. */
const most = 9
const pauseMs = 20_000

let [sounding, timer] = [undefined, undefined]
const Sound = window.AudioContext ?? window.webkitAudioContext
export const canRing = () => Boolean(Sound)

/** Browsers let a page sound only after somebody has touched it. */
export function unlock() {
  if (Sound) sounding ??= new Sound()
  sounding?.resume()
}

export function ring({ id, words, sound }) {
  clearTimeout(timer)
  note(id, words)
  again(most, sound)
}

export function stopRinging() {
  clearTimeout(timer)
  navigator.vibrate?.(0)
}

function again(left, sound) {
  if (left === 0) return
  if (sound) play()
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([300, 150, 300])
  timer = setTimeout(again, pauseMs, left - 1, sound)
}

/** Two notes, a fourth apart, three times: unlike an oven, a telephone or a lorry. */
function play() {
  if (sounding?.state !== "running") return
  for (const [index, hertz] of [523, 698, 523, 698, 523, 698].entries()) {
    const from = sounding.currentTime + index * 0.28
    const [tone, volume] = [sounding.createOscillator(), sounding.createGain()]
    tone.frequency.value = hertz
    volume.gain.setValueAtTime(0, from)
    volume.gain.linearRampToValueAtTime(0.4, from + 0.02)
    volume.gain.exponentialRampToValueAtTime(0.001, from + 0.26)
    tone.connect(volume).connect(sounding.destination)
    tone.start(from)
    tone.stop(from + 0.28)
  }
}

async function note(id, words) {
  if (!("Notification" in window) || Notification.permission !== "granted") return
  const options = { tag: `${location.pathname} ${id}`, body: words, icon: "/assets/icon-192.png" }
  const worker = await navigator.serviceWorker?.getRegistration()
  if (worker) return worker.showNotification("Common Oven", options)
  new Notification("Common Oven", options)
}
