import { defineConfig } from "vitest/config"

/** Everything that needs a browser, a service of its own with it: too slow for every run, so it has a command of its own. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: ["tests/{pages,phone,browser}/*.test.ts"],
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
