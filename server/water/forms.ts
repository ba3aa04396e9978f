import type { Kneading } from "../dough/heat/kneading.ts"
import type { Thing, ToMix } from "../dough/heat/to-mix.ts"
import {
  type Read,
  readTemperature,
  readTemperatureDifference,
  type TemperatureOf,
  type TemperatureUnit,
} from "../dough/readings.ts"
import type { Typed } from "../web/forms.ts"

/** Temperatures of the things follow their order in the mix. */
type Temperatures = { doughC: number; liquidC: number; roomC: number; thingsC: number[] }
/** `riseC` is set when somebody knows better than the usual rise for that kneading. */
export type Kitchen = Temperatures & { iceC: number; kneading: Kneading; riseC?: number; earlier?: Temperatures }

/** The names of the fields for what a thing has, today and in an earlier dough. */
export const fieldOf = (thing: Thing) => `at.${thing.key}`
export const earlierFieldOf = (thing: Thing) => `earlier.${fieldOf(thing)}`

/** What an earlier dough is asked about beside its room: flour and what may have been warm or cold for a reason. */
export const askedOfEarlier = ({ things }: ToMix) =>
  things.filter(({ key, ferments }) => key === "flour" || ferments || key.startsWith("part."))

/**
 * The form as read; without `kitchen` when a field could not be, with a sentence for each such field, and as long as
 * `asksEarlier` says that too little is told of the earlier dough.
 */
export function readKitchen(typed: Typed, mix: ToMix, unit: TemperatureUnit) {
  const errors: Record<string, string> = {}
  const value = (field: string, read: (text: string) => Read<number>) => {
    const result = read(typed[field] ?? "")
    if ("value" in result) return result.value
    errors[field] = result.error
    return Number.NaN
  }
  const temperature = (field: string, of: TemperatureOf) => value(field, (text) => readTemperature(text, unit, of))
  const blank = (field: string) => (typed[field] ?? "").trim() === ""
  const temperatures = (at: string, asked: Thing[]): Temperatures => {
    const roomC = temperature(`${at}room`, "room")
    return {
      doughC: temperature(`${at}dough`, "dough"),
      liquidC: temperature(`${at}liquid`, "water"),
      roomC,
      thingsC: mix.things.map((thing) => {
        const field = at + fieldOf(thing)
        return !asked.includes(thing) || blank(field) ? roomC : temperature(field, kindOf(thing))
      }),
    }
  }
  const today = temperatures("", mix.things)
  const kneading = typed.kneading === "mixer" || typed.kneading === "processor" ? typed.kneading : "hand"
  const usesEarlier = typed.kneading === "earlier"
  const asksEarlier = usesEarlier && ["dough", "liquid", "room"].some((of) => blank(`earlier.${of}`))
  const kitchen: Kitchen = {
    ...today,
    kneading,
    iceC: mix.liquid.isWater ? temperature("ice", "ice") : 0,
    ...(usesEarlier && !asksEarlier
      ? { earlier: temperatures("earlier.", askedOfEarlier(mix)) }
      : usesEarlier || blank("rise")
        ? {}
        : { riseC: value("rise", (text) => readTemperatureDifference(text, unit)) }),
  }
  const complete = !asksEarlier && Object.keys(errors).length === 0
  return { errors, asksEarlier, ...(complete ? { kitchen } : {}) }
}

const kindOf = ({ key, ferments }: Thing): TemperatureOf =>
  key === "flour" ? "flour" : ferments ? "dough" : "ingredient"
