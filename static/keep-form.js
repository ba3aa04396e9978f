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
  const words = wordsOf(form, submitter)
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

const typedIn = "textarea, input:not([type]), [type=text], [type=number], [type=radio]:checked"

/** "Dough temperature 25.5": what the form is called, and what was typed or chosen in it. */
function wordsOf(form, submitter) {
  const typed = fieldsOf(form).filter((field) => field.value && field.matches(typedIn))
  const main = [submitter, ...typed].filter((field) => field?.name === "value")
  const said = (main.length ? main : typed).map(saidBy).join(", ")
  return `${form.dataset.keeps} ${said.length > 60 ? `${said.slice(0, 58)}…` : said}`.trim()
}

function saidBy(field) {
  const words = field.matches("button")
    ? field.innerText
    : field.type === "radio"
      ? field.labels[0]?.innerText
      : field.value
  return (words ?? "").replace(/\s+/g, " ").trim()
}

export const fieldsAsObject = (entry) =>
  Object.fromEntries(entry.fields.map(([name, value]) => [name, isFile(value) ? value.name : value]))

/** The form on a page that an entry was made with: the same address, nothing hidden in it that says otherwise, and its fields. */
export function formOf(entry, page = document) {
  const fields = fieldsAsObject(entry)
  const agrees = ({ type, name, value }) => type !== "hidden" || name === "entryId" || !value || fields[name] === value
  const lacks = (form) => Object.keys(fields).filter((name) => !form.elements.namedItem(name)).length
  const forms = [...page.querySelectorAll("form[data-keeps]")]
  const likely = forms.filter((form) => pathOf(form) === entry.url && fieldsOf(form).every(agrees))
  return likely.sort((a, b) => lacks(a) - lacks(b))[0]
}

/** Whether somebody is at work in any form of the page, so that nothing may be put over it or opened beside it. */
export const isBusy = () => [...document.querySelectorAll("form[data-keeps]")].some(isTouched)

const untouchable = ["hidden", "submit", "button", "select-one", "fieldset"]
const isTouched = (form) =>
  form.contains(document.activeElement) ||
  fieldsOf(form).some(({ type, value, defaultValue, checked, defaultChecked, files }) => {
    if (untouchable.includes(type)) return false
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

export const hasFieldErrors = ({ errors }) => Object.keys(errors).some(Boolean)

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
  for (let around = form.closest("details"); around; around = around.parentElement.closest("details"))
    around.open = true
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
  const around = field.closest(".field, fieldset")
  if (around) around.append(place)
  else rowOf(field).after(place)
  const within = field.closest("details")
  if (within && form.contains(within)) within.open = true
}

// a label may be a button of its own, with no room for a sentence
function rowOf(field) {
  let row = field
  while (!row.parentElement.matches("form, details")) row = row.parentElement
  return row
}

// what the page itself has open stays open
const openAtFirst = new WeakSet(document.querySelectorAll("details[open]"))

/** Empties a form whose entry is kept or thrown away, and closes what it was opened in. */
export function putAway(form) {
  const had = form.contains(document.activeElement)
  setAside(form)
  form.reset()
  for (const inner of form.querySelectorAll("details")) inner.open = openAtFirst.has(inner)
  const around = form.closest("details")
  if (!around || openAtFirst.has(around)) return
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
