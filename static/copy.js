// A field that is there to be copied: all of it is picked as soon as it is touched, and where the browser allows it, a button
// copies it.
for (const field of document.querySelectorAll("input[data-copy]")) {
  field.addEventListener("focus", () => field.select())
  if (navigator.clipboard) field.after(copying(field))
}

function copying(field) {
  const button = document.createElement("button")
  button.type = "button"
  button.className = "quiet"
  button.textContent = "Copy"
  const said = document.createElement("small")
  said.setAttribute("role", "status")
  button.addEventListener("click", async () => {
    field.select()
    said.textContent = await navigator.clipboard.writeText(field.value).then(
      () => " Copied.",
      () => " Your browser does not allow it; it is picked, copy it by hand.",
    )
  })
  const place = document.createElement("p")
  place.append(button, said)
  return place
}
