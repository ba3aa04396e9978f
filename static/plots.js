// Reads a plot out: the value under the pointer, or the one the arrow keys have come to, in the words of its numbers.
// The plot and its table are the page's own; without this script both are still there.

function readOutAll() {
  for (const field of document.querySelectorAll(".plot .plot-field")) if (!field.dataset.readsOut) readOut(field)
  // of many plots that stand together, the tab key comes to one; the arrow keys go on from there
  for (const together of document.querySelectorAll(".plots-together"))
    for (const [index, field] of fieldsIn(together).entries()) field.tabIndex = index === 0 ? 0 : -1
}

const fieldsIn = (together) => [...together.querySelectorAll(".plot-field[data-reads-out]")]

function readOut(field) {
  const figure = field.closest(".plot")
  const picture = field.querySelector("svg")
  const points = pointsOf(figure, picture)
  if (!points.length) return
  const feet = figure.querySelector(".plot-feet") ?? figure.closest(".card").querySelector(".plot-feet")
  const told = document.createElement("p")
  told.className = "told screen-only"
  told.setAttribute("role", "status")
  feet.prepend(told)
  field.dataset.readsOut = "yes"
  field.tabIndex = 0
  field.setAttribute("role", "group")
  field.setAttribute("aria-label", `${picture.getAttribute("aria-label")} Arrow keys read the values.`)
  let here = -1

  function tell(index) {
    here = index
    picture.querySelector(".pointed")?.remove()
    const point = points[index]
    told.textContent = point ? point.words : ""
    if (point) picture.append(ringAt(point))
  }

  picture.addEventListener("pointermove", ({ clientX, clientY }) => {
    const box = picture.getBoundingClientRect()
    const away = ({ x, y }) =>
      Math.hypot((x / 1000) * box.width + box.left - clientX, (y / 1000) * box.height + box.top - clientY)
    tell(points.indexOf(nearest(points, away)))
  })
  picture.addEventListener("pointerleave", () => tell(-1))
  field.addEventListener("blur", () => tell(-1))
  field.addEventListener("keydown", (event) => {
    const next = moves[event.key]?.(points, here)
    if (next === undefined) return
    event.preventDefault()
    if (next === here && !goOn(field, event.key)) return
    tell(next)
  })
}

const nearest = (points, away) => points.reduce((best, one) => (away(one) < away(best) ? one : best))

function ringAt({ x, y }) {
  const ring = document.createElementNS("http://www.w3.org/2000/svg", "circle")
  for (const [name, value] of Object.entries({ class: "pointed", cx: `${x / 10}%`, cy: `${y / 10}%`, r: "7" }))
    ring.setAttribute(name, value)
  return ring
}

const moves = {
  ArrowRight: (points, here) => along(points, here, 1),
  ArrowLeft: (points, here) => along(points, here, -1),
  ArrowDown: (points, here) => across(points, here, 1),
  ArrowUp: (points, here) => across(points, here, -1),
  Escape: () => -1,
}

// to the next point of the same line, and no further than its end
function along(points, here, by) {
  if (here < 0) return by > 0 ? 0 : points.length - 1
  return points[here + by]?.series === points[here].series ? here + by : here
}

// to that point of the line before or after which lies nearest along the axis
function across(points, here, by) {
  if (here < 0) return by > 0 ? 0 : here
  const order = [...new Set(points.map(({ series }) => series))]
  const other = order[order.indexOf(points[here].series) + by]
  const theirs = points.filter(({ series }) => series === other)
  return theirs.length ? points.indexOf(nearest(theirs, ({ x }) => Math.abs(x - points[here].x))) : here
}

// where there is no further line, to the plot after or before this one
function goOn(field, key) {
  const by = { ArrowDown: 1, ArrowUp: -1 }[key]
  const together = field.closest(".plots-together")
  if (!by || !together) return false
  const fields = fieldsIn(together)
  const other = fields[fields.indexOf(field) + by]
  if (!other) return false
  field.tabIndex = -1
  other.tabIndex = 0
  other.focus()
  return false
}

// Every point of the drawing with its words from the table: both stand in the same order.
function pointsOf(figure, picture) {
  const groups = [...picture.querySelectorAll(".series")].sort(
    (a, b) => isOwn(b) - isOwn(a) || a.dataset.series - b.dataset.series,
  )
  return groups.flatMap((group) => {
    const head = headOf(figure, group.dataset.series)
    if (!head) return []
    const table = head.closest("table")
    const { dataset: units } = head.closest("[data-x]")
    const rows = [...table.tBodies[0].rows].filter((row) => !row.classList.contains("not-drawn"))
    const alongside = table.tHead.rows[0].cells[0]
    return placesIn(drawn(group)).flatMap(({ x, y }, nth) => {
      const cells = rows[nth]?.cells
      if (!cells) return []
      const words = `${withUnit(alongside, cells[0], units.x)}: ${withUnit(head, cells[head.cellIndex], units.y)}`
      return [{ x, y, series: head, words }]
    })
  })
}

// what was done is read before what it stands beside
const isOwn = ({ classList }) => Number(classList.contains("role-own"))

// "Rise 42 %" from a head "Rise, %" and a cell "42"
function withUnit(head, cell, unit) {
  const name =
    unit && head.textContent.endsWith(`, ${unit}`) ? head.textContent.slice(0, -unit.length - 2) : head.textContent
  const [value, ...rest] = cell.textContent.split(", ")
  return [`${name} ${value}${unit ? ` ${unit}` : ""}`, ...rest].join(", ")
}

// in the plot's own numbers, or in those that all of its kind share ("b7-rise", "class-rise")
function headOf({ id }, series) {
  const numbers = [id, id.replace(/^.*-/, "class-")].map((of) => document.getElementById(`${of}-numbers`))
  return numbers.map((one) => one?.querySelector(`th[data-series="${series}"]`)).find(Boolean)
}

// what many plots of a page share is drawn once, and used in each
const drawn = (group) => (group.localName === "use" ? document.querySelector(group.getAttribute("href")) : group)

function placesIn(group) {
  const path = group.querySelector(".marks") ?? group.querySelector(".line")
  if (path) return walk(path.getAttribute("d"))
  return [...group.querySelectorAll("rect")].map((rect) => {
    const [x, y, width, height] = ["x", "y", "width", "height"].map((name) =>
      Number.parseFloat(rect.getAttribute(name)),
    )
    return { x: (x + width / 2) * 10, y: (y + height / 2) * 10 }
  })
}

// M and l as a line has them, M, m and h0 as marks have them, H and V as steps have them; a step's point is where it begins
function walk(d) {
  let [x, y] = [0, 0]
  const places = []
  for (const [, letter, numbers] of d.matchAll(/([MmlHVh])([^MmlHVh]*)/g)) {
    const [a, b] = (numbers.match(/-?[\d.]+/g) ?? []).map(Number)
    if (letter === "M") [x, y] = [a, b]
    if (letter === "l" || letter === "m") [x, y] = [x + a, y + b]
    if (letter === "H") x = a
    if (letter === "V") y = a
    if ("MmlV".includes(letter)) places.push({ x, y })
  }
  return places
}

// a link to numbers that are folded away unfolds them
function unfold() {
  const at = location.hash && document.getElementById(location.hash.slice(1))
  if (at instanceof HTMLDetailsElement) at.open = true
}

// last, when all that it calls is there
readOutAll()
unfold()
addEventListener("hashchange", unfold)
document.addEventListener("htmx:after:swap", readOutAll)
