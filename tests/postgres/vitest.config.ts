import { defineConfig } from "vitest/config"

/** The application's own tests once more, on a real PostgreSQL server. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: ["tests/*.test.ts", "tests/table/*.test.ts", "tests/demo/class.test.ts", "tests/postgres/*.test.ts"],
    // these never ask this server
    exclude: ["tests/{bake-days-window,config,folder-claim,start}.test.ts"],
    globalSetup: ["tests/postgres/server.ts"],
    maxWorkers: 2,
    isolate: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
