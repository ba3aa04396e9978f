import { expect, test } from "vitest"
import { sayTo } from "../../server/accounts/say.ts"
import type { Kitchen } from "../../server/kitchens/kitchen.ts"
import type { OwnDay } from "../../server/plans/day.ts"
import { basisWords } from "../../server/plans/words.ts"

const inC = sayTo({ temperatureUnit: "C", massUnit: "g", clock: "24", zone: "UTC" })
const inF = sayTo({ temperatureUnit: "F", massUnit: "oz", clock: "12", zone: "UTC" })
const restingOn = (kitchen: Kitchen, culture: "sourdough" | "baker's yeast" = "sourdough") =>
  ({
    ...{ kitchen, question: { culture } },
    basis: { places: {}, mixed: { by: "unknown", doughC: 24 }, pieces: 2, ovenHolds: 2 },
  }) as unknown as OwnDay
const oven = (setC: number, readsC: number): Kitchen => ({
  oven: { value: { setC, readsC }, known: "measured", typed: "" },
})

test("an oven that is colder than its knob says is set higher, in the reader's degrees", () => {
  expect(basisWords(restingOn(oven(230, 215)), inC)).toContain(
    "Oven: set to 230 °C it reads 215 °C, measured: set it 15 °C higher than the formula says",
  )
  expect(basisWords(restingOn(oven(230, 215)), inF).join()).toContain("set it 27 °F higher")
  expect(basisWords(restingOn(oven(230, 240)), inC).join()).toContain("set it 10 °C lower")
  expect(basisWords(restingOn(oven(230, 231)), inC).join()).not.toContain("Oven")
})

test("a kitchen high up says what height does, of yeast only where there is any", () => {
  const high: Kitchen = { altitudeM: { value: 1829, known: "measured", typed: "6000 ft" } }
  const [, , words] = basisWords(restingOn(high), inC)
  expect(words).toMatch(/^At 6000 ft the same gas takes 25 % more room.*water boils at 93\.9 °C/)
  expect(words).not.toContain("yeast")
  expect(basisWords(restingOn(high, "baker's yeast"), inC).join()).toContain("20 % to 25 % of the yeast can stay out")
  expect(basisWords(restingOn({ altitudeM: { value: 90, known: "assumed", typed: "90 m" } }), inC)).toHaveLength(2)
})
