// The page that came back with an answer, laid over the one that is open, so that nothing somebody is doing is lost.

// a swap knows nothing of what was opened or typed since the page came
htmx.registerExtension("keep", {
  htmx_before_morph_attr: (element, { attrName }) => {
    if (attrName === "open") return !element.matches("details")
    if (attrName === "value") return !isTyped(element)
  },
})

const isTyped = (element) => element.matches("input:not([type=hidden])") && element.value !== element.defaultValue

/** Renews every region of this page from the answer's, when that is the same page. */
export async function renewRegions({ url, html }) {
  if (new URL(url, location.href).pathname !== location.pathname) return
  const page = new DOMParser().parseFromString(html, "text/html")
  // an answer may be overtaken by what others did
  if (versionIn(page) < versionIn(document)) return
  const regions = [...page.querySelectorAll("[data-region][id]")]
  if (regions.length === 0) return
  for (const region of regions) {
    const present = document.getElementById(region.id)
    if (present) await htmx.swap({ text: region.outerHTML, target: present, swap: "outerMorph" })
    else place(region)
  }
  for (const present of document.querySelectorAll("[data-region][id]")) {
    if (!page.getElementById(present.id) && !present.contains(document.activeElement)) present.remove()
  }
  const [live, theirs] = [document, page].map((one) => one.getElementById("live"))
  if (live && theirs) live.dataset.version = theirs.dataset.version
}

/** The version a page was drawn from, where it has one that can be compared. */
const versionIn = (page) => Number(page.getElementById("live")?.dataset.version ?? Number.NaN)

/** A region that was not there before comes beside the neighbour it has in the answer. */
function place(region) {
  const copy = document.importNode(region, true)
  const [before, after] = ["previousElementSibling", "nextElementSibling"].map((side) => neighbour(region, side))
  if (before) before.after(copy)
  else if (after) after.before(copy)
  else return
  htmx.process(copy)
}

function neighbour(region, side) {
  for (let next = region[side]; next; next = next[side]) {
    const present = next.id && document.getElementById(next.id)
    if (present) return present
  }
}
