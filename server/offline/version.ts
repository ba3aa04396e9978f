import { createHash } from "node:crypto"
import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { bundleUrls } from "../web/bundles.ts"

/**
 * Changes with every file that a page is made of, so that a phone knows when the copies it keeps are old. Where somebody
 * is changing those files it is "development", and phones ask for each of them again.
 */
export const version = process.env.NODE_ENV === "development" ? "development" : hashOf(filesOfPages())

function filesOfPages() {
  return ["../../static", "../../views"].flatMap((folder) => filesIn(fileURLToPath(new URL(folder, import.meta.url))))
}

function filesIn(folder: string) {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true })
  return entries.flatMap((entry) => (entry.isFile() ? [join(entry.parentPath, entry.name)] : [])).toSorted()
}

/** Of what is in the files alone: processes that share a database may be installed in different places. */
function hashOf(files: string[]) {
  const hash = createHash("sha256").update(Object.values(bundleUrls).join())
  for (const file of files) hash.update(readFileSync(file)).update("\0")
  return hash.digest("hex").slice(0, 12)
}
