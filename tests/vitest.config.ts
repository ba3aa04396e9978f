import { defineConfig } from "vitest/config"

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: [
      "tests/{postgres,pages,phone,browser}/**",
      "tests/start.test.ts",
      "tests/crumb/**",
      "tests/published/crumb-image.test.ts",
    ],
    maxWorkers: 2,
    // the name of a check against the outside gives its whole source
    chaiConfig: { truncateThreshold: 0 },
    // one embedded database for many files: opening it costs more than most tests
    isolate: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
