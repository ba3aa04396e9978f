import { readdir, readFile } from "node:fs/promises"
import { join } from "node:path"
import { setTimeout as wait } from "node:timers/promises"
import { type BrowserContext, chromium, type Page } from "playwright-core"
import { chromiumPath, patienceMs, phone, quietFlags } from "../browser/chromium.ts"
import { password } from "./kitchen.ts"

/** A phone whose browser keeps what it keeps in `profile`, from one start to the next. */
export async function takePhone(profile: string, { offline = false } = {}) {
  // one that is still closing would take the new one for a second window of its own
  while (await browserOf(profile)) await wait(100)
  const context = await chromium.launchPersistentContext(profile, {
    ...phone,
    executablePath: chromiumPath,
    args: quietFlags,
  })
  context.setDefaultTimeout(patienceMs)
  await context.setOffline(offline)
  const page = context.pages()[0] ?? (await context.newPage())
  return { context, page, kill: () => kill(context, profile) }
}

/** As when a phone is out of memory or battery: nothing of the browser gets to put anything in order. */
async function kill(context: BrowserContext, profile: string) {
  const closed = new Promise((resolve) => context.once("close", resolve))
  process.kill((await browserOf(profile))!, "SIGKILL")
  await closed
}

/** The browser's first process, which is the one of this profile that is of no other type. */
async function browserOf(profile: string) {
  for (const id of await readdir("/proc")) {
    const command = await readFile(`/proc/${id}/cmdline`, "utf8").catch(() => "")
    if (command.includes(`--user-data-dir=${profile}`) && !command.includes("--type=")) return Number(id)
  }
  return undefined
}

/** The browser's list of its caches as it stands on the disk, where it is written some seconds after a cache was made. */
export async function cachesOnDisk(profile: string) {
  const files = await readdir(profile, { recursive: true })
  const lists = files.filter((file) => /CacheStorage\/\w+\/index\.txt$/.test(file))
  return (await Promise.all(lists.map((file) => readFile(join(profile, file), "latin1")))).join()
}

export async function signIn(page: Page, url: string, name: string) {
  await page.goto(`${url}/sign-in`)
  await page.getByLabel("Sign-in name").fill(name)
  await page.getByLabel("Password").fill(password)
  await page.getByRole("button", { name: "Sign in" }).click()
  await page.locator(`body[data-name="${name}"]`).waitFor()
}

/** Waits until the page is one that opens without network. */
export async function isKept(page: Page) {
  await page.waitForFunction(async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith("oven-pages-") && (await (await caches.open(name)).match(location.pathname))) return true
    }
    return false
  })
}

export const waiting = async (page: Page) =>
  (await page.locator("#waiting li").allTextContents()).map((text) => text.replace(/\s+/g, " "))

/** How many entries the phone still has. */
export const queued = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((done, fail) => {
        const opening = indexedDB.open("common-oven")
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          const count = opening.result.transaction("entries").objectStore("entries").count()
          count.onsuccess = () => done(count.result)
          count.onerror = () => fail(count.error)
          opening.result.close()
        }
      }),
  )
