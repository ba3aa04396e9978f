import { defineConfig } from "vitest/config"

/** The application's own tests once more, on a real PostgreSQL server. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: ["tests/*.test.ts", "tests/postgres/*.test.ts"],
    globalSetup: ["tests/postgres/server.ts"],
    maxWorkers: 2,
    isolate: false,
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
})
