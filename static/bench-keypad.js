// A tile opens a keypad large enough for floury thumbs; the phone's own keyboard stays away, a hardware one types as ever.
const figures = ".figure input"

export function startKeypads(bench) {
  // what is toggled does not bubble
  bench.addEventListener(
    "toggle",
    ({ target }) => target.matches(".tile") && (target.open ? open(target) : close(target)),
    true,
  )
  bench.addEventListener("focusin", ({ target }) => target.matches(figures) && choose(target))
  bench.addEventListener("input", ({ target }) => target.matches(figures) && showUnit(target))
  bench.addEventListener("change", ({ target }) => changed(target))
  // a key takes the focus from the field it types in
  bench.addEventListener("mousedown", (event) => event.target.closest("[data-key]") && event.preventDefault())
  bench.addEventListener("click", ({ target }) => {
    const key = target.closest("[data-key]")
    const filler = target.closest("[data-fills]")
    if (key) press(key)
    else if (filler) fill(filler)
    else if (target.closest("[data-closes]")) shut(target.closest(".tile"))
  })
  document.addEventListener("keydown", ({ key }) => key === "Escape" && shut(bench.querySelector(".tile[open]")))
  document.addEventListener("pointerdown", ({ target }) => {
    const tile = bench.querySelector(".tile[open]")
    if (tile && isSheet(tile) && !tile.contains(target)) tile.open = false
  })
  for (const tile of bench.querySelectorAll(".tile[open]")) open(tile)
}

const isSheet = (tile) => getComputedStyle(tile.querySelector("form") ?? tile).position === "fixed"

function open(tile) {
  const form = tile.querySelector("form")
  // what is swapped in meanwhile leaves alone what somebody types
  form?.setAttribute("hx-morph-skip", "")
  for (const field of tile.querySelectorAll(figures)) {
    field.inputMode = "none"
    showUnit(field)
  }
  const empty = [...tile.querySelectorAll(figures)].find(({ value }) => value === "")
  const first = empty ?? tile.querySelector(".figure [name=value], .taps button, textarea")
  if (!tile.contains(document.activeElement) || document.activeElement.matches("summary"))
    first?.focus({ preventScroll: isSheet(tile) })
}

function close(tile) {
  const form = tile.querySelector("form")
  if (form && !form.dataset.corrects) form.removeAttribute("hx-morph-skip")
}

function shut(tile) {
  if (!tile) return
  tile.open = false
  tile.querySelector("summary").focus({ preventScroll: true })
}

/** The keypad types into the field that was chosen last. */
function choose(field) {
  field.inputMode = "none"
  for (const one of field.form.querySelectorAll(figures)) one.toggleAttribute("data-chosen", one === field)
  if (field.value) field.select()
}

function press(key) {
  const { form } = key
  const field = form.querySelector("[data-chosen]") ?? form.querySelector(".figure [name=value]")
  const { value } = field
  const what = key.dataset.key
  if (what === "−") field.value = /^[-−]/.test(value) ? value.slice(1) : `−${value}`
  else if (what === "%") form.elements.value.value = withPercent(form.elements.value.value)
  else if (what === "back") erase(field)
  else if (what !== "." || !/[.,]/.test(remaining(field)))
    field.setRangeText(what, field.selectionStart, field.selectionEnd, "end")
  for (const one of new Set([field, form.elements.value])) one.dispatchEvent(new Event("input", { bubbles: true }))
}

const withPercent = (text) => (/%\s*$/.test(text) ? text.replace(/\s*%\s*$/, "") : `${text} %`.trim())
/** What of a field stays when the next key replaces what is selected. */
const remaining = ({ value, selectionStart, selectionEnd }) =>
  value.slice(0, selectionStart) + value.slice(selectionEnd)

function erase(field) {
  const { selectionStart: from, selectionEnd: to } = field
  field.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end")
}

/** A unit that was typed, or a percentage, stands for itself. */
function showUnit(field) {
  const unit = field.parentElement.querySelector(".unit")
  if (unit) unit.hidden = /[a-z%″"]/i.test(field.value)
}

function fill({ dataset, value }) {
  document.getElementById(dataset.fills).value = value
}

function changed({ name, value, form }) {
  if (!form?.matches(".tile form")) return
  const start = form.elements.startHeight
  // each jar has a start of its own
  if (name === "of" && start)
    start.value = form.querySelector("[name=of]:checked").defaultChecked ? start.defaultValue : ""
  if (name === "kind") form.dataset.keeps = value[0].toUpperCase() + value.slice(1)
}
