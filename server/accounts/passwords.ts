import { hash, verify } from "@node-rs/argon2"

/** Argon2id with 19 MiB, 2 passes, 1 lane: OWASP Password Storage Cheat Sheet, "Argon2id", second choice of equal strength. */
const strength = { memoryCost: 19456, timeCost: 2, parallelism: 1 }

export const hashPassword = (password: string) => hash(password, strength)
export const isPassword = (passwordHash: string, password: string) => verify(passwordHash, password)

/** Takes as long as a real check, so that the time of an answer does not tell which sign-in names exist. */
export async function pretendToCheck(password: string) {
  await hash(password, strength)
  return false
}
