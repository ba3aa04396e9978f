import { defineConfig } from "vitest/config"
import { patienceMs } from "../browser/chromium.ts"

/** Too slow for every run, so it has a command of its own: what needs a service, most of it a browser too, and crumbs measured whole. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: [
      "tests/{pages,phone,browser}/*.test.ts",
      "tests/start.test.ts",
      "tests/crumb/*.test.ts",
      "tests/published/crumb-image.test.ts",
    ],
    // a browser may stumble by itself where much else runs; the report says what it did again
    retry: 1,
    maxWorkers: 2,
    // what the service is made of is loaded once for all files of a worker
    isolate: false,
    // far more than any of it takes: on a busy machine nothing is slow enough to be wrong
    testTimeout: 900_000,
    hookTimeout: 900_000,
    expect: { poll: { timeout: patienceMs, interval: 100 } },
  },
})
