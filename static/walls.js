// A review on a wall: the arrow keys, and what a clicker sends, lead where the links lead.
const ways = { ArrowRight: "next", PageDown: "next", ArrowLeft: "prev", PageUp: "prev" }

document.addEventListener("keydown", (event) => {
  const way = ways[event.key]
  if (!way || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
  // a field keeps its arrows
  if (event.target.closest("input, textarea, select")) return
  const link = document.querySelector(`.wall-ways a[rel=${way}]`)
  if (!link) return
  event.preventDefault()
  link.click()
})
