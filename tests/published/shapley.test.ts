import fc from "fast-check"
import { expect, test } from "vitest"
import { shapleyOf, shapleyShares } from "../../server/dough/causes/shapley.ts"

type Case = {
  what: string
  players: number
  /** The worth of a set of players, numbered from 1, in order. */
  worth: (set: number[]) => number
  expected: number[]
  tolerance: number
  source: string
  seen: "primary" | "secondary" | "memory"
  url?: string
}

const table = (worths: Record<string, number>) => (set: number[]) => worths[set.join("")] ?? 0
const votes = (quota: number, weights: number[]) => (set: number[]) =>
  set.reduce((sum, player) => sum + weights[player - 1]!, 0) >= quota ? 1 : 0
const runway = (costs: number[]) => (set: number[]) => Math.max(0, ...set.map((player) => costs[player - 1]!))

const cases: Case[] = [
  {
    what: "two right-hand gloves and a left-hand one",
    players: 3,
    worth: table({ "13": 1, "23": 1, "123": 1 }),
    expected: [1 / 6, 1 / 6, 2 / 3],
    tolerance: 1e-12,
    source: "Wikipedia, Shapley value, glove game (copy)",
    seen: "primary",
    url: "https://zalansite.site/mediawiki/index.php?action=edit&section=5&title=Shapley_value",
  },
  {
    what: "a runway for aircraft that need 8, 11, 13, 18",
    players: 4,
    worth: runway([8, 11, 13, 18]),
    expected: [2, 3, 4, 9],
    tolerance: 1e-12,
    source: "Littlechild & Owen 1973, Management Science 20:370, as told by Wikipedia, Airport problem (copy)",
    seen: "secondary",
    url: "https://hellenicaworld.com/Science/Mathematics/en/AirportProblem.html",
  },
  {
    what: "a runway for six pilots",
    players: 6,
    worth: runway([40, 50, 60, 70, 80, 90]),
    expected: [40, 52, 67, 87, 117, 177].map((cost) => cost / 6),
    tolerance: 1e-12,
    source: "Mathematics Stack Exchange, Shapley value of the airport game (copy)",
    seen: "primary",
    url: "https://math.techqa.club/calculate-the-shapley-value-of-the-airport-game-4152535",
  },
  {
    what: "50, 49 and 1 votes of which 51 must agree",
    players: 3,
    worth: votes(51, [50, 49, 1]),
    expected: [2 / 3, 1 / 6, 1 / 6],
    tolerance: 1e-12,
    source: "Shapley & Shubik 1954, Am Polit Sci Rev 48:787, the textbook majority of three",
    seen: "memory",
  },
  {
    what: "7, 4 and 1 votes of which eight must agree",
    players: 3,
    worth: votes(8, [7, 4, 1]),
    expected: [2 / 3, 1 / 6, 1 / 6],
    tolerance: 1e-12,
    source: "a question bank on weighted voting, worked by orderings",
    seen: "primary",
    url: "https://mysovi.ai/question-banks/de/questions/consider-weighted-voting-system-find-shapley-shubik-power-2",
  },
  {
    what: "3, 2, 1 and 1 votes of which four must agree",
    players: 4,
    worth: votes(4, [3, 2, 1, 1]),
    expected: [1 / 2, 1 / 6, 1 / 6, 1 / 6],
    tolerance: 1e-12,
    source: "Wikipedia, Shapley–Shubik power index; game read in a copy, result from memory",
    seen: "memory",
  },
  {
    what: "three people sharing a ride",
    players: 3,
    worth: table({ "1": 6, "2": 12, "3": 42, "12": 12, "13": 42, "23": 42, "123": 42 }),
    expected: [2, 5, 35],
    tolerance: 1e-12,
    source: "coopgt, documentation of shapley_value",
    seen: "primary",
    url: "https://github.com/drvinceknight/coopgt/blob/master/docs/how-to/calculate-the-shapley-value.rst",
  },
  {
    what: "Ibn Ezra's four heirs",
    players: 4,
    worth: (set) => (set.includes(1) ? 120 : set.includes(2) ? 60 : set.includes(3) ? 40 : set.includes(4) ? 30 : 0),
    expected: [80.83333, 20.83333, 10.83333, 7.5],
    tolerance: 5e-6,
    source: "Aumann 2010, Int J Game Theory 39:3, as printed by CoopGame, documentation of shapleyValue",
    seen: "secondary",
    url: "https://rdocumentation.org/packages/CoopGame/versions/0.2.2/topics/shapleyValue",
  },
  {
    what: "three people on a project, worked by hand through all six orders: B adds 12, 9, 6, 6, 9 and 6",
    players: 3,
    worth: table({ "1": 12, "2": 6, "3": 9, "12": 24, "13": 27, "23": 15, "123": 36 }),
    expected: [17, 8, 11],
    tolerance: 1e-12,
    source: "Hochschule Mittweida, course on game theory, topic Shapley value",
    seen: "primary",
    url: "https://blockchain-academy.hs-mittweida.de/courses/game-theory-blockchain/lessons/cooperative-game-theory/topic/shapley-value",
  },
  {
    what: "three makers in one production",
    players: 3,
    worth: table({ "1": 68, "2": 102, "3": 0, "12": 170, "13": 710, "23": 762, "123": 992 }),
    expected: [229, 272, 491],
    tolerance: 1e-9,
    source: "coopProductGame, documentation of shapleyValue",
    seen: "primary",
    url: "https://rdrr.io/cran/coopProductGame/man/shapleyValue.html",
  },
]

const solve = (players: number, worth: Case["worth"]) => {
  const names = Array.from({ length: players }, (_, at) => String(at + 1))
  const shares = shapleyShares(names, (set) => worth([...set].map(Number).sort((a, b) => a - b)))
  return names.map((name) => shares[name]!)
}

/** The same game as a bake's causes are shared out, hundreds of times for their ranges: by the values of all sets. */
const solveByValues = (players: number, worth: Case["worth"]) =>
  shapleyOf(
    Array.from({ length: 2 ** players }, (_, bits) =>
      worth(Array.from({ length: players }, (_, at) => at + 1).filter((player) => bits & (1 << (player - 1)))),
    ),
  )

test.each(cases)("$what: $source ($seen)", ({ players, worth, expected, tolerance }) => {
  for (const shares of [solve(players, worth), solveByValues(players, worth)]) {
    expect(shares).toHaveLength(expected.length)
    shares.forEach((share, i) => {
      expect(Math.abs(share - expected[i]!)).toBeLessThanOrEqual(tolerance)
    })
  }
})

/** Each step of the runway is paid by those who need it, alike. */
test("any runway follows the closed form: Littlechild & Owen 1973, abstract and rule (secondary)", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 8 }), (needs) => {
      const costs = needs.toSorted((a, b) => a - b)
      const steps = costs.map((cost, at) => (cost - (costs[at - 1] ?? 0)) / (costs.length - at))
      const paid = costs.map((_, at) => steps.slice(0, at + 1).reduce((sum, step) => sum + step, 0))
      solve(costs.length, runway(costs)).forEach((share, at) => {
        expect(share).toBeCloseTo(paid[at]!, 9)
      })
    }),
  )
})
