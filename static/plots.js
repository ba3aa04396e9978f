// Reads a plot out: the value under the pointer, or the one the arrow keys have come to, in the words of its numbers.
// The plot and its table are the page's own; without this script both are still there.

for (const field of document.querySelectorAll(".plot .field")) readOut(field)
document.addEventListener("htmx:after:swap", () => {
  for (const field of document.querySelectorAll(".plot .field:not([tabindex])")) readOut(field)
})

function readOut(field) {
  const figure = field.closest(".plot")
  const picture = field.querySelector("svg")
  const points = pointsOf(figure, picture)
  if (!points.length) return
  const told = document.createElement("p")
  told.className = "told screen-only"
  told
    .setAttribute(
      "role",
      "status",
    )(figure.querySelector(".feet") ?? figure.closest(".card").querySelector(".feet"))
    .prepend(told)
  field.tabIndex = 0
  field.setAttribute("role", "group")
  field.setAttribute("aria-label", "Values: the left and right arrow keys read them, up and down change the line")
  let here = -1

  function tell(index) {
    here = index
    picture.querySelector(".pointed")?.remove()
    const point = points[index]
    told.textContent = point ? point.words : ""
    if (!point) return
    const ring = document.createElementNS("http://www.w3.org/2000/svg", "circle")
    ring.setAttribute("class", "pointed")
    ring.setAttribute("cx", `${point.x / 10}%`)
    ring.setAttribute("cy", `${point.y / 10}%`)
    ring.setAttribute("r", "7")
    picture.append(ring)
  }

  picture.addEventListener("pointermove", ({ clientX, clientY }) => {
    const box = picture.getBoundingClientRect()
    const away = ({ x, y }) =>
      Math.hypot((x / 1000) * box.width + box.left - clientX, (y / 1000) * box.height + box.top - clientY)
    const nearest = points.reduce((best, point) => (away(point) < away(best) ? point : best))
    tell(points.indexOf(nearest))
  })
  picture.addEventListener("pointerleave", () => tell(-1))
  field.addEventListener("blur", () => tell(-1))
  field.addEventListener("keydown", (event) => {
    const next = moves[event.key]?.(points, here)
    if (next === undefined) return
    event.preventDefault()
    tell(next)
  })
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
  if (here < 0) return 0
  const order = [...new Set(points.map(({ series }) => series))]
  const other = order[order.indexOf(points[here].series) + by]
  const theirs = points.filter(({ series }) => series === other)
  const away = ({ x }) => Math.abs(x - points[here].x)
  return theirs.length ? points.indexOf(theirs.reduce((best, one) => (away(one) < away(best) ? one : best))) : here
}

// Every point of the drawing with its words from the table: both stand in the same order.
function pointsOf(figure, picture) {
  const groups = [...picture.querySelectorAll(".series")].sort((a, b) => a.dataset.series - b.dataset.series)
  return groups.flatMap((group) => {
    const head = headOf(figure, group.dataset.series)
    if (!head) return []
    const table = head.closest("table")
    const rows = [...table.tBodies[0].rows].filter((row) => !row.classList.contains("beyond"))
    const alongside = table.tHead.rows[0].cells[0].textContent
    return placesIn(drawn(group)).flatMap(({ x, y }, nth) => {
      const cells = rows[nth]?.cells
      if (!cells) return []
      const words = `${alongside} ${cells[0].textContent}: ${head.textContent} ${cells[head.cellIndex].textContent}`
      return [{ x, y, series: head, words }]
    })
  })
}

// in the plot's own numbers, or in those that many plots of the page share
function headOf({ id, dataset }, series) {
  const numbers = [id, dataset.shared].map((of) => document.getElementById(`${of}-numbers`))
  return numbers.map((one) => one?.querySelector(`th[data-series="${series}"]`)).find(Boolean)
}

// what many plots of a page share is drawn once, and used in each
function drawn(group) {
  return group.localName === "use" ? document.querySelector(group.getAttribute("href")) : group
}

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
