import fc from "fast-check"
import type { Away, DayQuestion, Place } from "../../../server/dough/day/day.ts"
import type { Stage } from "../../../server/dough/schedule.ts"

/** A stage as tests write it. */
export const stage = (kind: Stage["kind"], lowMin: number, highMin = lowMin, more: Partial<Stage> = {}): Stage => ({
  ...{ key: kind, kind, name: kind, lowMin, highMin, drivenByTemperature: false, handsOnMin: 0, cue: "", tip: "" },
  ...more,
})
/** What temperature drives. */
export const driven = (referenceC: number) => ({ drivenByTemperature: true, referenceC })
export const handsOn = (handsOnMin: number) => ({ handsOnMin })

const hourMs = 3_600_000
/** So many hours after an instant. */
export const hoursAfter = (at: Date, hours: number) => new Date(+at + hours * hourMs)

/** From nine to eleven hours in the evening, eight hours of sleep, in every night around a day. */
export const nights = (around: Date, fromHour = 22.5, hours = 8): Away[] =>
  Array.from({ length: 9 }, (_, i) => {
    const midnight = new Date(Math.floor(+around / 86_400_000) * 86_400_000 + (i - 6) * 86_400_000)
    const from = hoursAfter(midnight, fromHour)
    return { from, to: hoursAfter(from, hours), why: "asleep" as const }
  })

const minutes = (low: number, high: number, wider: number) =>
  fc
    .tuple(fc.integer({ min: low, max: high }), fc.integer({ min: 0, max: wider }))
    .map(([from, more]) => [from, from + more] as const)

const ranged = (kind: Stage["kind"], [low, high]: readonly [number, number], more: Partial<Stage> = {}) =>
  stage(kind, low, high, more)

const sometimes = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 1 })

const mostly = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 4 })

/** A day's stages: with a levain or not, with a retard or not, some of it driven by temperature. */
const anyStages = fc
  .record({
    levain: sometimes(fc.tuple(minutes(180, 720, 180), fc.boolean())),
    rest: sometimes(minutes(10, 60, 30)),
    bulk: minutes(90, 420, 120),
    folds: fc.constantFrom(0, 10, 15, 20),
    shape: minutes(10, 30, 20),
    retard: sometimes(minutes(420, 900, 360)),
    proof: sometimes(fc.tuple(minutes(30, 150, 90), fc.boolean())),
    bake: minutes(15, 60, 15),
    cool: sometimes(minutes(30, 120, 60)),
    referenceC: fc.integer({ min: 20, max: 28 }),
  })
  .map(({ levain, rest, bulk, folds, shape, retard, proof, bake, cool, referenceC }) => [
    ...(levain
      ? [
          stage("mix", 10, 10, { key: "feed", ...handsOn(10) }),
          ranged("rest", levain[0], { key: "ripen", ...(levain[1] && driven(referenceC)) }),
        ]
      : []),
    stage("mix", 15, 25, handsOn(15)),
    ...(rest ? [ranged("rest", rest)] : []),
    ranged("bulk", bulk, { ...driven(referenceC), ...handsOn(folds) }),
    ranged("shape", shape, handsOn(10)),
    ...(retard ? [ranged("retard", retard, driven(4))] : []),
    ...(proof ? [ranged("proof", proof[0], proof[1] ? driven(referenceC) : {})] : []),
    ranged("bake", bake, handsOn(5)),
    ...(cool ? [ranged("cool", cool)] : []),
  ])

const table = new Date("2026-03-08T18:00:00Z")

/** Somebody's busy hours: a few hours here and there in the days around. */
const anyBusy = fc.array(
  fc.tuple(fc.integer({ min: -60 * 60, max: 12 * 60 }), fc.integer({ min: 15, max: 600 })).map(
    ([from, min]): Away => ({
      from: hoursAfter(table, from / 60),
      to: hoursAfter(table, (from + min) / 60),
      why: "busy",
    }),
  ),
  { maxLength: 6 },
)

const celsius = (min: number, max: number) => fc.integer({ min: min * 2, max: max * 2 }).map((half) => half / 2)

/** Any kitchen, and what somebody wants of a day in it. */
export const anyQuestion: fc.Arbitrary<DayQuestion> = fc
  .record({
    stages: anyStages,
    culture: fc.constantFrom("sourdough" as const, "baker's yeast" as const),
    room: celsius(12, 32),
    proofer: sometimes(celsius(24, 32)),
    cool: sometimes(celsius(8, 16)),
    fridge: sometimes(celsius(2, 8)),
    bulkAt: fc.constantFrom<Place>("room", "room", "proofer", "cool"),
    mixedC: celsius(18, 30),
    tableAt: fc.integer({ min: -48, max: 48 }).map((quarters) => hoursAfter(table, quarters / 4)),
    hoursBefore: sometimes(fc.integer({ min: 4, max: 30 })),
    sleep: mostly(fc.tuple(fc.integer({ min: 40, max: 50 }), fc.integer({ min: 5, max: 10 }))),
    busy: anyBusy,
    loads: fc.constantFrom(1, 1, 1, 1, 1, 1, 1, 2, 2, 3),
    cold: fc.constantFrom(false, false, false, false, true),
    flour: fc.constantFrom(1, 2, 5, 10),
  })
  .map((any) => {
    const { room, proofer, cool, fridge, tableAt, stages } = any
    const fed = { starter: 1, flour: any.flour, water: any.flour }
    const places = Object.entries({ room, proofer, cool, fridge }).filter(([, placeC]) => placeC !== undefined)
    return {
      ...{ stages, culture: any.culture, loads: any.loads, placeOf: { bulk: any.bulkAt } },
      places: Object.fromEntries(places) as DayQuestion["places"],
      mixedC: { value: any.mixedC, known: "measured" as const },
      onTableBy: tableAt,
      ...(any.hoursBefore && { notBefore: hoursAfter(tableAt, -any.hoursBefore) }),
      away: [...(any.sleep ? nights(tableAt, any.sleep[0] / 2, any.sleep[1]) : []), ...any.busy],
      ...(any.cold && { cold: { stageKey: "proof", min: { low: 480, high: 960 } } }),
      ...(stages[0]?.key === "feed" && {
        levain: { stageKey: "ripen", written: { starter: 1, flour: 2, water: 2 }, fed, starterHydration: 1 },
      }),
    }
  })
