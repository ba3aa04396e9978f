import { existsSync } from "node:fs"
import { type Browser, type BrowserContextOptions, chromium } from "playwright-core"

const usualPlaces = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"]

/** Where a Chromium is, or undefined: then the browser tests are skipped. */
export const chromiumPath = process.env.CHROMIUM_PATH || usualPlaces.find((path) => existsSync(path))
if (!chromiumPath) console.log("Browser tests skipped: no Chromium found, and CHROMIUM_PATH is not set.")

export const quietFlags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
]

export const openBrowser = (...flags: string[]) =>
  chromium.launch({ executablePath: chromiumPath, args: [...quietFlags, ...flags] })

export const phone: BrowserContextOptions = {
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  timezoneId: "Europe/Lisbon",
}
export const laptop: BrowserContextOptions = { viewport: { width: 1366, height: 768 }, timezoneId: "Europe/Lisbon" }

/** How long a page may take for what it does at once where nothing else runs, ms. */
export const patienceMs = 180_000

/** A browser window of somebody's own. */
export async function openWindow(browser: Browser, options: BrowserContextOptions) {
  const context = await browser.newContext(options)
  const page = await context.newPage()
  page.setDefaultTimeout(patienceMs)
  return page
}

/** The same, in which somebody has signed in at the service's address. */
export async function signedIn(
  browser: Browser,
  options: BrowserContextOptions,
  { url, name, password }: { url: string; name: string; password: string },
) {
  const page = await openWindow(browser, options)
  await page.goto(`${url}/sign-in`)
  await page.getByLabel("Sign-in name").fill(name)
  await page.getByLabel("Password").fill(password)
  await page.getByRole("button", { name: "Sign in" }).click()
  await page.getByRole("link", { name, exact: true }).waitFor()
  return page
}
