/** A piece of a page as its partial draws it, under the id of its element; `within` is the id of the list it is one of. */
export type Fragment = { id: string; html: string; within?: string }

/** A row of the list `within`, as its partial draws it. Throws an Error when its root has no id. */
export function rowOf(html: string, within: string): Fragment {
  const id = /^\s*<\w[^>]*?\sid="([^"]+)"/.exec(html)?.[1]
  if (!id) throw new Error(`No id on the root of ${html.trim().slice(0, 60)}`)
  return { id, html: html.trim(), within }
}

/** The regions of a page: its elements with an id and `data-region`; one that lies in another comes with that one. */
export function regionsIn(page: string): Fragment[] {
  const regions: Fragment[] = []
  const opening = /<([a-z]+)\b[^>]*?\sdata-region\b[^>]*>/g
  for (let found = opening.exec(page); found; found = opening.exec(page)) {
    const html = page.slice(found.index, endOf(found[1]!, page, found.index))
    const id = /\sid="([^"]+)"/.exec(found[0])?.[1]
    if (id) regions.push({ id, html })
    opening.lastIndex = found.index + html.length
  }
  return regions
}

/** Where the element that opens at `from` is closed. Our views escape every "<" in what people wrote, so tags can be counted. */
function endOf(tag: string, page: string, from: number) {
  const tags = new RegExp(`<(/?)${tag}\\b[^>]*>`, "g")
  tags.lastIndex = from
  let depth = 0
  for (let found = tags.exec(page); found; found = tags.exec(page)) {
    depth += found[1] ? -1 : 1
    if (depth === 0) return tags.lastIndex
  }
  return page.length
}

/**
 * What makes a page that shows `before` show `after`, in htmx's words; "" when it does already. Morphing leaves open what
 * somebody has opened and typed. Where it is not known what a page shows, everything is sent. `lists` are the ids of those
 * elements in which fragments come and go.
 */
export function patch(before: Fragment[] | undefined, after: Fragment[], lists: string[] = []): string {
  const fixed = after.filter((one) => !one.within && htmlOf(before ?? [], one.id) !== one.html)
  const inLists = lists.flatMap((list) => {
    const rows = listIn(after, list)
    return before ? patchList(list, listIn(before, list), rows) : partial(`#${list}`, "innerMorph", rows)
  })
  return [...fixed.map(renewed), ...inLists].join("\n")
}

const htmlOf = (fragments: Fragment[], id: string) => fragments.find((one) => one.id === id)?.html
const listIn = (fragments: Fragment[], list: string) => fragments.filter(({ within }) => within === list)

function patchList(list: string, before: Fragment[], after: Fragment[]) {
  const kept = keptInOrder(before, after)
  const removed = before.filter(({ id }) => !kept.has(id))
  const htmlBefore = new Map(before.map(({ id, html }) => [id, html]))
  const changed = after.filter(({ id, html }) => kept.has(id) && htmlBefore.get(id) !== html)
  return [...removed.map(gone), ...changed.map(renewed), ...added(list, after, kept)]
}

/** Those that are there before and after; none when they changed places, which takes a name that changed. */
function keptInOrder(before: Fragment[], after: Fragment[]) {
  const [was, is] = [new Set(before.map(({ id }) => id)), new Set(after.map(({ id }) => id))]
  const [keptWas, keptIs] = [[...was].filter((id) => is.has(id)), [...is].filter((id) => was.has(id))]
  return new Set(keptWas.join() === keptIs.join() ? keptIs : [])
}

/** Neighbours that are new together come together: htmx looks for every place before it puts anything anywhere. */
function added(list: string, after: Fragment[], kept: Set<string>) {
  const arrivals: { target: string; swap: string; rows: Fragment[] }[] = []
  let arriving = { target: `#${list}`, swap: "prepend", rows: [] as Fragment[] }
  for (const one of after) {
    if (kept.has(one.id)) arriving = { target: `#${one.id}`, swap: "after", rows: [] }
    else if (arriving.rows.push(one) === 1) arrivals.push(arriving)
  }
  return arrivals.map(({ target, swap, rows }) => partial(target, swap, rows))
}

const renewed = (one: Fragment) => partial(`#${one.id}`, "outerMorph", [one])
const gone = ({ id }: Fragment) => partial(`#${id}`, "delete", [])
const partial = (target: string, swap: string, fragments: Fragment[]) =>
  `<hx-partial hx-target="${target}" hx-swap="${swap}">${fragments.map(({ html }) => html).join("")}</hx-partial>`
