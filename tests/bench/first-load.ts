import { rm } from "node:fs/promises"
import type { Browser, CDPSession } from "playwright-core"
import { openBrowser, phone } from "../browser/chromium.ts"
import { temporaryFolder } from "../data-dir.ts"
import { startService } from "../service.ts"

/** "Slow 4G" as browsers' own developer tools simulate it: 1.6 Mbit/s down, 0.75 up, 150 ms, each with their factor. */
const slow4G = {
  offline: false,
  downloadThroughput: (1.6e6 / 8) * 0.9,
  uploadThroughput: (0.75e6 / 8) * 0.9,
  latency: 150 * 3.75,
}
const loads = 5

/** What the first load of a bench costs on a phone whose cache is empty: its requests, bytes over the wire, and times. */
const dataDir = await temporaryFolder()
const service = await startService({ DATA_DIR: dataDir, DATABASE_URL: "" }, "server/demo/main.ts")
const browser = await openBrowser()
try {
  const cookies = await signedIn(browser, "lioba")
  const bench = await benchOf(browser, cookies)
  await firstLoad(browser, cookies, bench) // the service's own first time
  for (let load = 1; load <= loads; load++) report(load, await firstLoad(browser, cookies, bench))
} finally {
  await browser.close()
  await service.stop()
  await rm(dataDir, { recursive: true, force: true })
}

type Cookies = Awaited<ReturnType<typeof signedIn>>

async function signedIn(browser: Browser, name: string) {
  const context = await browser.newContext(phone)
  const page = await context.newPage()
  await page.goto(`${service.url}/sign-in`)
  await page.getByLabel("Sign-in name").fill(name)
  await page.getByLabel("Password").fill("heron-lane")
  await page.getByRole("button", { name: "Sign in" }).click()
  await page.waitForURL(`${service.url}/`)
  const cookies = await context.cookies()
  await context.close()
  return cookies
}

async function benchOf(browser: Browser, cookies: Cookies) {
  const context = await browser.newContext(phone)
  await context.addCookies(cookies)
  const page = await context.newPage()
  await page.goto(service.url)
  const address = await page.getByRole("link", { name: "Go on with your bake" }).getAttribute("href")
  await context.close()
  return `${service.url}${address}`
}

async function firstLoad(browser: Browser, cookies: Cookies, url: string) {
  const context = await browser.newContext(phone)
  await context.addCookies(cookies)
  const page = await context.newPage()
  const cdp = await context.newCDPSession(page)
  await cdp.send("Network.enable")
  await cdp.send("Network.emulateNetworkConditions", slow4G)
  const received = bytesOf(cdp)
  await page.goto(url, { waitUntil: "load" })
  const times = await page.evaluate(() => {
    const [navigation] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[]
    const painted = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN
    return { painted, usable: navigation!.domContentLoadedEventEnd, loaded: navigation!.loadEventEnd }
  })
  const measured = { requests: received.requests(), bytes: received.bytes(), ...times }
  await context.close()
  return measured
}

/** Headers and bodies as they came over the wire, compressed; of a stream that stays open, nothing. */
function bytesOf(cdp: CDPSession) {
  const finished: number[] = []
  cdp.on("Network.loadingFinished", ({ encodedDataLength }) => finished.push(encodedDataLength))
  return { requests: () => finished.length, bytes: () => finished.reduce((sum, one) => sum + one, 0) }
}

function report(load: number, { requests, bytes, painted, usable, loaded }: Awaited<ReturnType<typeof firstLoad>>) {
  const ms = (time: number) => `${Math.round(time)} ms`
  const kb = `${(bytes / 1000).toFixed(1)} kB`
  console.log(
    `load ${load}: ${requests} requests, ${kb}, painted ${ms(painted)}, usable ${ms(usable)}, loaded ${ms(loaded)}`,
  )
}
