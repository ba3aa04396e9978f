import { expect, test } from "vitest"
import { foldsIn } from "../server/bakes/folds.ts"

const bulk = (tip: string, kind = "bulk") => foldsIn({ kind, name: "Bulk", cue: "Domed at the rim.", tip })

test.each([
  ["Fold every 30 minutes.", { everyMin: 30, times: null }],
  ["Fold every half hour for the first two hours.", { everyMin: 30, times: 4 }],
  ["Stretch and fold each 45 min, three times.", { everyMin: 45, times: 3 }],
  ["Fold every hour, twice.", { everyMin: 60, times: 2 }],
  ["Every 20 min a coil fold, for 1,5 hours.", { everyMin: 20, times: 5 }],
  ["Fold every 30 min for an hour and a half", { everyMin: 30, times: 3 }],
  ["Fold every 1.5 h.", { everyMin: 90, times: null }],
])("%s", (tip, folds) => expect(bulk(tip)).toEqual(folds))

test.each([
  "",
  "Fold twice in the first hour and a half.",
  "Turn the tin every 10 minutes.",
  "Fold every minute.",
  "Fold it every so often.",
])("%j names no interval for folding", (tip) => expect(bulk(tip)).toBeNull())

test("a stage of folds needs no word of folding", () => {
  expect(bulk("Every 30 min.", "fold")).toEqual({ everyMin: 30, times: null })
})
