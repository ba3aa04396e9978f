// Handles on a photo for what its form says in numbers: drag one, or move it with the arrow keys, and the numbers follow;
// type a number, and the handle follows.

function markAll() {
  for (const mark of document.querySelectorAll(".crumb-mark")) if (!mark.dataset.handled) handle(mark)
}

function handle(mark) {
  mark.dataset.handled = "yes"
  const form = mark.closest("form")
  const polygon = mark.querySelector("polygon")
  for (const words of form.querySelectorAll(".crumb-handled")) words.hidden = false
  const pairs = new Map()
  for (const field of form.querySelectorAll("[data-pair]")) {
    const pair = pairs.get(field.dataset.pair) ?? {}
    pair[field.dataset.axis] = field
    pairs.set(field.dataset.pair, pair)
  }
  for (const pair of pairs.values()) {
    pair.name = pair.x.closest("fieldset").querySelector("legend").textContent
    pair.button = buttonFor(mark, pair, draw)
    mark.append(pair.button)
  }
  form.addEventListener("input", draw)
  form.closest("details").addEventListener("toggle", draw)
  draw()

  function draw() {
    const places = []
    for (const pair of pairs.values()) {
      const [x, y] = [percentIn(pair.x), percentIn(pair.y)]
      pair.button.hidden = x === undefined || y === undefined
      if (pair.button.hidden) continue
      places.push([x, y])
      pair.button.style.left = `${x}%`
      pair.button.style.top = `${y}%`
      pair.button.setAttribute("aria-label", `${pair.name}: ${x} % from the left, ${y} % from the top`)
    }
    polygon.setAttribute(
      "points",
      cornersOf(mark.dataset.shape, places)
        .map((at) => at.join(","))
        .join(" "),
    )
    if (mark.dataset.shape === "box") drawCloser(form, mark, places)
  }
}

function buttonFor(mark, pair, draw) {
  const button = document.createElement("button")
  button.type = "button"
  button.className = "crumb-handle"
  const put = (x, y) => {
    const within = (value) => String(Math.round(Math.min(100, Math.max(0, value)) * 10) / 10)
    pair.x.value = within(x)
    pair.y.value = within(y)
    draw()
  }
  button.addEventListener("pointerdown", (event) => {
    button.setPointerCapture(event.pointerId)
    button.focus()
    event.preventDefault()
  })
  button.addEventListener("pointermove", ({ pointerId, clientX, clientY }) => {
    if (!button.hasPointerCapture(pointerId)) return
    const box = mark.getBoundingClientRect()
    put((100 * (clientX - box.left)) / box.width, (100 * (clientY - box.top)) / box.height)
  })
  button.addEventListener("keydown", (event) => {
    const step = steps[event.key]
    if (!step) return
    event.preventDefault()
    const by = event.shiftKey ? 5 : 0.5
    put(percentIn(pair.x) + by * step[0], percentIn(pair.y) + by * step[1])
  })
  return button
}
const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }

function percentIn(field) {
  const text = field.value.trim().replace(",", ".").replace(/\s*%$/, "")
  const value = Number(text)
  return text !== "" && value >= 0 && value <= 100 ? value : undefined
}

function cornersOf(shape, places) {
  if (shape !== "box" || places.length < 2) return places
  const [[left, top], [right, bottom]] = places
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ]
}

/** What lies in the frame, as large as there is room for, to count in. */
function drawCloser(form, mark, places) {
  const closer = form.querySelector(".crumb-closer")
  const picture = mark.querySelector("img")
  if (!picture.complete) picture.addEventListener("load", () => drawCloser(form, mark, places), { once: true })
  closer.hidden = places.length < 2 || !picture.naturalWidth
  if (closer.hidden) return
  const [xs, ys] = [0, 1].map((axis) => places.map((place) => place[axis] / 100).sort((a, b) => a - b))
  const [left, top] = [xs[0] * picture.naturalWidth, ys[0] * picture.naturalHeight]
  const [wide, high] = [(xs[1] - xs[0]) * picture.naturalWidth, (ys[1] - ys[0]) * picture.naturalHeight]
  if (wide < 2 || high < 2) return
  const canvas = closer.querySelector("canvas")
  const by = 600 / Math.max(wide, high)
  canvas.width = wide * by
  canvas.height = high * by
  canvas.getContext("2d").drawImage(picture, left, top, wide, high, 0, 0, canvas.width, canvas.height)
}

markAll()
document.addEventListener("htmx:after:swap", markAll)
