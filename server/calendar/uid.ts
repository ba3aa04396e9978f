import { createHash } from "node:crypto"

/** The namespace for names that are addresses (RFC 9562, section 6.6). */
const addresses = "6ba7b811-9dad-11d1-80b4-00c04fd430c8"

/**
 * The same UUID for the same name, always: version 5 of RFC 9562, section 5.5. A UID must stay as it is and must not tell
 * user, host or domain (RFC 7986, section 5.3), so that of an event is made of its address instead of being it.
 */
export function uuidOf(name: string, namespace = addresses): string {
  const hash = createHash("sha1")
    .update(Buffer.from(namespace.replaceAll("-", ""), "hex"))
    .update(name)
    .digest()
  const bytes = hash.subarray(0, 16)
  bytes[6] = (bytes[6]! & 0x0f) | 0x50
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  return bytes.toString("hex").replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5")
}
