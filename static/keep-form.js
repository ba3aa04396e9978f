// Between a form of the bench and the entry that is kept of it.
import { newId } from "./keep-store.js"

const fieldsOf = (form) => [...form.elements].filter(({ name }) => name)
const isFile = (value) => value instanceof File

/** What pressing the button of a form says, as entries that can be kept: one for each picture. */
export async function entriesOf(form, submitter, maker) {
  const pressedAt = form.dataset.pressedAt ?? new Date().toISOString()
  const said = [...new FormData(form)].filter(([name]) => name !== "entryId")
  if (submitter?.name) said.push([submitter.name, submitter.value])
  const texts = said.filter(([, value]) => !isFile(value))
  const words = wordsOf(form)
  const multipart = form.enctype === "multipart/form-data"
  const entry = { ...maker, pressedAt, url: pathOf(form), multipart, state: "waits" }
  const files = await Promise.all(said.filter(([, value]) => isFile(value) && value.name).map(readNow))
  return (files.length ? files : [undefined]).map((file) => ({
    ...entry,
    id: newId(),
    words: file ? `${words}, ${file[1].name}` : words,
    fields: file ? [...texts, file] : texts,
  }))
}

// a file of a gallery may only be a promise, and be gone when the network is back
async function readNow([name, file]) {
  return [name, new File([await file.arrayBuffer()], file.name, { type: file.type })]
}

const pathOf = (form) => {
  const { pathname, search } = new URL(form.getAttribute("action") ?? "", location.href)
  return pathname + search
}

/** "Dough temperature 25.5": what the form is called, and what was typed or chosen in it. */
function wordsOf(form) {
  const typed = fieldsOf(form).filter((field) =>
    field.matches("textarea, input:not([type]), [type=text], [type=number], :checked:not([type=checkbox])"),
  )
  const main = typed.filter(({ name }) => name === "value")
  const values = (main.length ? main : typed).map((field) =>
    field.type === "radio" ? field.labels?.[0]?.innerText : field.value,
  )
  const said = values
    .map((value) => (value ?? "").trim())
    .filter(Boolean)
    .join(", ")
  return `${form.dataset.keeps} ${said.length > 60 ? `${said.slice(0, 58)}…` : said}`.trim()
}

export const fieldsAsObject = (entry) =>
  Object.fromEntries(entry.fields.map(([name, value]) => [name, isFile(value) ? value.name : value]))

/** The form on a page that an entry was made with: the same address, and nothing hidden in it that says otherwise. */
export function formOf(entry, page = document) {
  const fields = fieldsAsObject(entry)
  const agrees = ({ type, name, value }) => type !== "hidden" || name === "entryId" || !value || fields[name] === value
  return [...page.querySelectorAll("form[data-keeps]")].find(
    (form) => pathOf(form) === entry.url && fieldsOf(form).every(agrees),
  )
}

/** Whether somebody has typed in a form, so that nothing may be put over it. */
export const isTouched = (form) =>
  form.contains(document.activeElement) ||
  fieldsOf(form).some(({ type, value, defaultValue, checked, defaultChecked, files }) => {
    if (type === "hidden" || type.startsWith("select")) return false
    if (type === "checkbox" || type === "radio") return checked !== defaultChecked
    return files ? files.length > 0 : value !== defaultValue
  })

/** The message beside each field on the page that refused an entry; what stands beside none is under "". */
export function errorsIn(page, entry) {
  const form = formOf(entry, page)
  const messages = form
    ? fieldsOf(form)
        .map((field) => [field.name, messageOf(field, page)])
        .filter(([, message]) => message)
    : []
  if (messages.length) return Object.fromEntries(messages)
  const loose = [...page.querySelectorAll(".error, #problem")]
    .map(({ textContent }) => textContent.trim())
    .filter(Boolean)
  return { "": loose.join(" ") || "It was not accepted." }
}

function messageOf(field, page) {
  const told = field.closest("[aria-invalid=true]")?.getAttribute("aria-describedby") ?? ""
  const places = told.split(" ").map((id) => page.getElementById(id))
  return places.find((place) => place?.matches(".error"))?.textContent.trim()
}

/** Opens the form of a refused entry again, with what was typed and the messages beside the fields. */
export function giveBack(entry, form) {
  setAside(form)
  form.dataset.corrects = entry.seq
  form.dataset.pressedAt = entry.pressedAt
  // what is swapped in meanwhile knows nothing of it
  form.setAttribute("hx-morph-skip", "")
  for (const field of fieldsOf(form)) fill(field, entry.fields)
  for (const [name, message] of Object.entries(entry.errors)) showError(form, name, message, entry.seq)
  for (let around = form; around; around = around.parentElement?.closest("details"))
    if (around !== form) around.open = true
}

function fill(field, fields) {
  if (["hidden", "submit", "button"].includes(field.type)) return
  const values = fields.filter(([name]) => name === field.name).map(([, value]) => value)
  if (field.type === "file") {
    const files = new DataTransfer()
    for (const value of values) files.items.add(value)
    field.files = files.files
  } else if (field.type === "checkbox" || field.type === "radio") field.checked = values.includes(field.value)
  else if (values.length) field.value = values[0]
  if (field.type !== "radio" || field.checked) field.dispatchEvent(new Event("input", { bubbles: true }))
}

function showError(form, name, message, seq) {
  const field = name && fieldsOf(form).find((one) => one.name === name)
  const place = Object.assign(document.createElement("p"), { className: "error", textContent: message })
  place.id = `kept-error-${seq}-${name}`
  place.dataset.keptError = ""
  if (!field) return form.prepend(place)
  const whole = field.closest("fieldset") ?? field
  const described = whole.getAttribute("aria-describedby") ?? ""
  whole.dataset.described = described
  whole.setAttribute("aria-invalid", "true")
  whole.setAttribute("aria-describedby", `${described} ${place.id}`.trim())
  const beside = field.closest("fieldset, .field, label")
  if (beside) beside.append(place)
  else field.after(place)
  const within = field.closest("details")
  if (within && form.contains(within)) within.open = true
}

/** Empties a form whose entry is kept or thrown away, and closes what it was opened in. */
export function putAway(form) {
  const had = form.contains(document.activeElement)
  setAside(form)
  form.reset()
  for (const inner of form.querySelectorAll("details")) inner.open = false
  const around = form.closest("details")
  if (!around) return
  around.open = false
  if (had) around.querySelector("summary")?.focus({ preventScroll: true })
}

function setAside(form) {
  for (const place of form.querySelectorAll("[data-kept-error]")) place.remove()
  for (const field of form.querySelectorAll("[data-described]")) {
    const { described } = field.dataset
    field.removeAttribute("aria-invalid")
    if (described) field.setAttribute("aria-describedby", described)
    else field.removeAttribute("aria-describedby")
    delete field.dataset.described
  }
  form.removeAttribute("hx-morph-skip")
  delete form.dataset.corrects
  delete form.dataset.pressedAt
}
