import { createHash, randomBytes } from "node:crypto"

/** 256 random bits for a link that nobody can guess, safe in a URL. */
export const newToken = () => randomBytes(32).toString("base64url")
export const tokenHash = (token: string) => createHash("sha256").update(token).digest("hex")
