import { defineConfig } from "vitest/config"

/** Everything that needs a service of its own, most of it a browser too: too slow for every run, so it has a command of its own. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: ["tests/{pages,phone,browser}/*.test.ts", "tests/start.test.ts"],
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
