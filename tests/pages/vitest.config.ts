import { defineConfig } from "vitest/config"

/** Every page in a browser, at both sizes: too slow for every run, so it has a command of its own. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: { include: ["tests/pages/*.test.ts"], hookTimeout: 120_000 },
})
