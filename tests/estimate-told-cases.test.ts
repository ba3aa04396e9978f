import { describe } from "vitest"
import { toldCases } from "./published/told-cases.ts"
import { expect, test } from "./test.ts"
import { compare, enterTold, ourTarget } from "./told.ts"

const bakes = toldCases.flatMap((told) =>
  told.bakes.map((bake) => ({ told, bake, name: [told.id, told.bread, bake.name].filter(Boolean).join(", ") })),
)
const canBe = (id: string) => ["under-01", "under-03", "under-05", "under-06", "other-02"].includes(id)

describe("bakes told in public, entered as told", () => {
  test.for(bakes.filter(({ told }) => !canBe(told.id)))(
    "$name: without amounts, start or temperature no number is made up",
    async ({ told, bake }, { db, cast }) => {
      const { before, doubts, unpublished } = await enterTold(db, cast, told, bake)
      expect(before.rise).toBeUndefined()
      expect(before.ready).toBe("no time")
      // and something was asked for, by the formula, its plan or the estimate
      expect([...doubts, unpublished, before.asked].join("")).not.toBe("")
    },
  )

  test.for(bakes.filter(({ told }) => canBe(told.id)))(
    "$name: an estimate with its range, and no claim against what was told of the bulk",
    async ({ told, bake }, { db, cast }) => {
      const { before, after } = await enterTold(db, cast, told, bake)
      expect(before.rise!.low).toBeLessThan(before.rise!.value)
      expect(before.rise!.high).toBeGreaterThan(before.rise!.value)
      expect(compare(bake, before).direction).not.toBe(false)
      if (bake.rise) {
        const off = (value: number) => Math.abs(value - bake.rise!.share)
        expect(off(after!.rise!.value)).toBeLessThanOrEqual(off(before.rise!.value))
      }
    },
  )

  test("a long bulk at 25 °C is past the target at its told end, one half as long is not", async ({ db, cast }) => {
    const [short, long] = bakes.filter(({ told }) => told.id === "under-01")
    expect((await enterTold(db, cast, short!.told, short!.bake)).before).toMatchObject({ ready: "about" })
    const { before } = await enterTold(db, cast, long!.told, long!.bake)
    expect(before.ready).toBe("since")
    expect(before.rise!.low).toBeGreaterThan(0.8 * ourTarget)
  })
})
