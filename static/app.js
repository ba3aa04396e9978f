// What pages do a little better with a script; all of them work without it.

// A request that never arrives swaps nothing: say so where every page has a place for it.
document.addEventListener("htmx:error", (event) => {
  // a number in the head that could not be renewed is no trouble of the page's
  if (event.target.id === "open-questions") return
  const problem = document.getElementById("problem")
  const asked = event.detail?.ctx?.request?.method === "GET"
  if (!problem) return
  problem.textContent = asked
    ? "No connection: this page may be out of date."
    : "No connection. Nothing was sent; try again when it is back."
})

// The time zone of this machine is the best first guess for a new account.
document.addEventListener("DOMContentLoaded", () => {
  const zone = document.querySelector("form select[name=zone][data-guess]")
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone
  if (zone && [...zone.options].some((option) => option.value === here)) zone.value = here
})
