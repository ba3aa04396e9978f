// Stands between the pages and the network on a phone: a bake that was opened opens again without network. It never
// answers for a form that is sent; those wait in keep-store.js.

// the server puts its own here, and a browser that finds this file changed starts again from it
const version = "no version"
const developing = version === "development"

const assetsCache = `oven-assets-${version}`
const viewerCache = "oven-viewer"
const offlinePage = "/offline"
const core = [offlinePage, "/manifest.webmanifest", "/assets/icon.svg"]

/** A network that takes longer is as good as none, when there is a copy. Our own choice. */
const patienceMs = 4000
/** So many pages and pictures are kept, the oldest go first. Our own choice. */
const most = { pages: 20, photos: 80 }

const isAsset = ({ pathname }) => /^\/assets\/|^\/manifest\.webmanifest$/.test(pathname)
const isPicture = ({ pathname }) => /^\/photos\/[^/]+\/small$/.test(pathname)
const isKeptPage = ({ pathname }) => /^\/(bakes\/\d+\/?)?$/.test(pathname)
const changesWhoIsSignedIn = ({ pathname }) => /^\/(sign-in|sign-out|setup|join|new-password)\b/.test(pathname)

addEventListener("install", (event) => {
  event.waitUntil(install().then(() => skipWaiting()))
})

addEventListener("activate", (event) => {
  event.waitUntil(forget((name) => name.startsWith("oven-assets-") && name !== assetsCache).then(() => clients.claim()))
})

addEventListener("fetch", (event) => {
  const { request } = event
  const url = new URL(request.url)
  if (url.origin !== location.origin) return
  if (request.method === "POST") return noticePost(event, url)
  if (request.method !== "GET") return
  if (isAsset(url)) event.respondWith(asset(request))
  else if (isPicture(url)) event.respondWith(picture(request))
  else if (request.mode === "navigate") event.respondWith(page(event, url))
  else if (isKeptPage(url)) event.respondWith(freshPage(event, url))
})

/** A page tells who is signed in, which copies it wants kept, and what it is made of that came before this worker. */
addEventListener("message", (event) => {
  event.waitUntil(take(event.data ?? {}).catch(() => {}))
})

async function take({ viewer, page, assets = [] }) {
  await belongTo(String(viewer))
  await renew(page)
  await keepAssets(assets)
}

// Assets

/** Everything the last version's pages were made of comes anew, so that their copies still look right without network. */
async function install() {
  const cache = await caches.open(assetsCache)
  await Promise.all(core.map((path) => fetchInto(cache, path)))
  const offline = await (await cache.match(offlinePage)).text()
  await Promise.all(
    [...partsOf(offline), ...(await olderAssets())].map((path) => fetchInto(cache, path).catch(() => {})),
  )
}

async function olderAssets() {
  const names = (await caches.keys()).filter((name) => name.startsWith("oven-assets-") && name !== assetsCache)
  const requests = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()))
  return requests.flat().map(({ url }) => url)
}

/** Past the browser's own cache, which may hold the file of an older version; without cookies, for none of it is anybody's. */
async function fetchInto(cache, path) {
  const response = await fetch(path, { cache: "no-cache", credentials: "omit" })
  if (!response.ok || response.redirected) throw new Error(`${path}: ${response.status}`)
  await cache.put(path, response)
}

const partsOf = (html) => [...html.matchAll(/(?:href|src)="(\/[^"]+)"/g)].map(([, path]) => path).filter(isAssetPath)
const isAssetPath = (path) => isAsset(new URL(path, location))

let newerVersion = false

async function asset(request) {
  const cache = await caches.open(assetsCache)
  const kept = await cache.match(request)
  if (kept && !developing && !newerVersion) return kept
  const response = await fetch(request, { cache: "no-cache" }).catch(() => undefined)
  if (response?.ok && response.type === "basic") await cache.put(request, response.clone())
  return response ?? kept ?? (await cache.match(request, { ignoreSearch: true })) ?? Response.error()
}

/** Everything a page is made of at once, then its pictures one by one, which are in no hurry. */
async function keepAssets(urls) {
  const cache = await caches.open(assetsCache)
  const ours = urls.map((one) => new URL(one, location)).filter(({ origin }) => origin === location.origin)
  await Promise.all(
    ours.filter(isAsset).map(async (url) => (await cache.match(url)) ?? fetchInto(cache, url).catch(() => {})),
  )
  for (const url of ours.filter(isPicture)) {
    if (!(await caches.match(url))) await picture(new Request(url)).catch(() => {})
  }
}

// Pages, each under the name of the person they were made for

async function page(event, url) {
  const network = networkPage(event.request, url)
  event.waitUntil(network.then(({ saved }) => saved).catch(() => {}))
  const answer = network.then(({ response }) => response).catch(() => undefined)
  if (!isKeptPage(url)) return (await answer) ?? copyOfOfflinePage()

  const first = await Promise.race([answer, patience().then(() => keptPage(url))])
  if (first && first.status < 500) return first
  return (await keptPage(url)) ?? (await answer) ?? copyOfOfflinePage()
}

/** A page that asks for its own newer state gets no copy, but leaves one. */
function freshPage(event, url) {
  const network = networkPage(event.request, url)
  event.waitUntil(network.then(({ saved }) => saved).catch(() => {}))
  return network.then(({ response }) => response)
}

const patience = () => new Promise((resolve) => setTimeout(resolve, patienceMs))
const copyOfOfflinePage = async () => (await caches.match(offlinePage)) ?? Response.error()

async function networkPage(request, url) {
  const asked = signings
  const response = await fetch(request)
  const theirs = response.headers.get("oven-version")
  if (theirs) newerVersion = theirs !== version
  const keeps = isKeptPage(url) && response.ok && !response.redirected && isHtml(response)
  return { response, saved: keeps ? keepPage(url, response.clone(), asked) : undefined }
}

const isHtml = (response) => (response.headers.get("content-type") ?? "").startsWith("text/html")

/** Keeps a page as it came, unless it is nobody's or somebody else has signed in since it was asked for. */
async function keepPage(url, response, asked) {
  const html = await response.clone().text()
  const viewer = /<body data-viewer="(\d+)"/.exec(html)?.[1]
  if (!viewer || asked !== signings) return
  await belongTo(viewer)
  // first what it is made of: a page is kept once it can be used
  await keepAssets(partsOf(html))
  const cache = await caches.open(`oven-pages-${viewer}`)
  await cache.delete(url.pathname)
  await cache.put(url.pathname, response)
  await bound(cache, most.pages)
  // where somebody who installed us begins
  if (!(await cache.match("/"))) await renew("/").catch(() => {})
}

async function renew(path) {
  const url = new URL(path ?? "/nothing", location)
  if (isKeptPage(url)) await (await networkPage(new Request(url), url)).saved
}
const keptPage = async ({ pathname }) => {
  const viewer = await currentViewer()
  return viewer ? (await caches.open(`oven-pages-${viewer}`)).match(pathname, { ignoreVary: true }) : undefined
}

/**
 * The copy is for where there is no network: asked for with one, a picture that was withdrawn goes from here too. It never
 * changes otherwise, another one has another address.
 */
async function picture(request) {
  const viewer = await currentViewer()
  if (!viewer) return fetch(request)
  const cache = await caches.open(`oven-photos-${viewer}`)
  const kept = await cache.match(request, { ignoreVary: true })
  const network = fetch(request).then(async (response) => {
    if (response.status === 404) await cache.delete(request)
    else if (!kept && response.ok && !response.redirected) {
      await cache.put(request, response.clone())
      await bound(cache, most.photos)
    }
    return response
  })
  if (!kept) return network
  return (await Promise.race([network.catch(() => undefined), patience()])) ?? kept
}

async function bound(cache, count) {
  const requests = await cache.keys()
  for (const request of requests.slice(0, Math.max(0, requests.length - count))) await cache.delete(request)
}

// Whose pages these are

let signings = 0

/** Whoever signs in or out leaves nothing of the person before; a picture that is withdrawn goes from here too. */
function noticePost(event, url) {
  if (changesWhoIsSignedIn(url)) {
    signings += 1
    event.waitUntil(forgetPages())
  }
  const [, photo] = /^\/photos\/([^/]+)\/removal$/.exec(url.pathname) ?? []
  if (photo) event.waitUntil(forgetPhoto(photo))
}

async function currentViewer() {
  const kept = await (await caches.open(viewerCache)).match("/")
  return kept ? kept.text() : ""
}

async function belongTo(viewer) {
  const before = await currentViewer()
  if (before === viewer) return
  if (before) await forgetPages()
  await (await caches.open(viewerCache)).put("/", new Response(viewer))
}

const forgetPages = () => forget((name) => /^oven-(pages|photos)-/.test(name) || name === viewerCache)

async function forget(which) {
  for (const name of await caches.keys()) if (which(name)) await caches.delete(name)
}

async function forgetPhoto(photo) {
  const viewer = await currentViewer()
  if (viewer) await (await caches.open(`oven-photos-${viewer}`)).delete(`/photos/${photo}/small`)
}
