import { isIP } from "node:net"
import { z } from "zod"
import { StartRefused } from "./start-refused.ts"

/** Every setting of the service: its default, what it means, and what it must be. README.md prints the same table. */
export const settings = {
  HOST: { initial: "127.0.0.1", meaning: "the address to listen on; 0.0.0.0 for all", check: z.string().trim().min(1) },
  PORT: { initial: "8420", meaning: "the port to listen on", check: z.coerce.number().int().min(0).max(65535) },
  PUBLIC_URL: {
    initial: "",
    meaning: "the address people open, for links and secure cookies; empty: the address of the request",
    check: z.union([z.literal(""), z.url({ protocol: /^https?$/ }).transform((url) => new URL(url).origin)]),
  },
  DATA_DIR: { initial: "./data", meaning: "the folder for photos and the embedded database", check: z.string().min(1) },
  DATABASE_URL: {
    initial: "",
    meaning: "a PostgreSQL server; empty: the embedded database in DATA_DIR",
    check: z.union([z.literal(""), z.url({ protocol: /^postgres(ql)?$/ })]),
  },
  LOG_LEVEL: {
    initial: "info",
    meaning: "how much the log says",
    check: z.enum(["fatal", "error", "warn", "info", "debug", "trace", "silent"]),
  },
  TRUST_PROXY: {
    initial: "",
    meaning: "addresses of reverse proxies whose X-Forwarded headers are believed",
    check: z
      .string()
      .transform((text) => text.split(",").map((part) => part.trim()))
      .transform((parts) => parts.filter((part) => part !== ""))
      .pipe(z.array(z.string().refine(isProxy))),
  },
} as const

const expected: Record<keyof typeof settings, string> = {
  HOST: "an address to listen on, such as 127.0.0.1",
  PORT: "a whole number from 0 to 65535",
  PUBLIC_URL: "an address that begins with http:// or https://",
  DATA_DIR: "the path of a folder",
  DATABASE_URL: "an address that begins with postgres:// or postgresql://",
  LOG_LEVEL: "one of fatal, error, warn, info, debug, trace, silent",
  TRUST_PROXY: "addresses or networks separated by commas, such as 127.0.0.1 or 10.0.0.0/8",
}

type Name = keyof typeof settings
export type Config = { [N in Name]: z.output<(typeof settings)[N]["check"]> }

/** Reads the environment once. Throws StartRefused for the first bad value. A value set to nothing counts as not set. */
export function readConfig(environment: Record<string, string | undefined>): Config {
  const entries = (Object.keys(settings) as Name[]).map((name) => {
    const value = environment[name]?.trim() || settings[name].initial
    const result = settings[name].check.safeParse(value)
    if (!result.success) throw new StartRefused(`${name} must be ${expected[name]}, but is "${value}".`)
    return [name, result.data]
  })
  return Object.fromEntries(entries)
}

function isProxy(text: string) {
  const [address = "", bits = "0", ...rest] = text.split("/")
  const family = isIP(address)
  return family > 0 && rest.length === 0 && /^\d{1,3}$/.test(bits) && Number(bits) <= (family === 4 ? 32 : 128)
}
