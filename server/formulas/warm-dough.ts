import { sayTo } from "../accounts/say.ts"
import type { DayPlan } from "../dough/day/day.ts"
import { type StoodWarm, stoodWarm, stoodWarmAsWritten } from "../dough/heat/stood-warm.ts"
import type { Stage } from "../dough/schedule.ts"
import { isLevain } from "../estimate/rising.ts"
import type { Caution } from "./caution.ts"

type Dough = { stages: Stage[]; plan?: DayPlan; fromTheFirst: boolean }

/**
 * How long a dough with egg or milk in it stands warm before the oven, from the stages as written or, where there is one,
 * from a person's own day. `fromTheFirst` where egg or milk goes into something that is mixed before the dough.
 */
export function warmDough({ stages, plan, fromTheFirst }: Dough): Caution {
  const standing = beforeTheOven(stages, fromTheFirst)
  const stood = (plan && inPlan(plan, standing)) ?? stoodWarmAsWritten(standing)
  const { minutes } = sayTo(undefined)
  const time = (min: number) => (min < 1 ? "none" : minutes(min))
  const [cold, room, hot] = [time(stood.cold), time(stood.room), time(stood.hot)]
  const where = stood.assumed ? " at an ordinary 24 °C, as no temperature is given" : ""
  const day = plan ? "In this day" : "As written"
  const hours = standing.length
    ? `${day} it stands ${plan ? "" : "up to "}${cold} above 5 °C (41 °F)${where}, ${room === "none" ? "none of it" : `${room} of it`} above 21 °C (70 °F) and ${hot} above 32 °C (90 °F). `
    : ""
  return {
    key: "warm",
    title: "Egg and milk left warm",
    words: `${hours}For comparison: at home, 2 hours out of the cold in all, 1 hour above 32 °C (USDA FSIS); in a food business that goes by time alone, 4 hours, or 6 if it begins cold and never passes 21 °C (FDA Food Code 3-501.19). They are for food that is eaten as it is; which of them a dough has to keep is for your local rules to say: follow them, and keep long rests cold.`,
    short: `Egg or milk in the dough: ${standing.length ? `${plan ? "" : "up to "}${cold} above 5 °C (41 °F), ${room} above 21 °C (70 °F). ` : ""}At home 2 h, 1 h above 32 °C (USDA); by time alone 4 h or 6 h (Food Code). Follow your local rules.`,
  }
}

/** The stages in which egg and milk are in the dough and it is not in the oven. */
function beforeTheOven(stages: Stage[], fromTheFirst: boolean): Stage[] {
  const oven = stages.findIndex(({ kind }) => kind === "bake")
  const until = oven < 0 ? stages.findIndex(({ kind }) => kind === "cool") : oven
  const before = until < 0 ? stages : stages.slice(0, until)
  const first = before.findIndex((stage) => !isLevain(stage))
  return fromTheFirst || first < 0 ? before : before.slice(first)
}

function inPlan({ stages, curve }: DayPlan, standing: Stage[]): StoodWarm | undefined {
  const keys = new Set(standing.map(({ key }) => key))
  const planned = stages.filter(({ stage }) => keys.has(stage.key))
  const [first, last] = [planned[0], planned.at(-1)]
  if (!first || !last || !curve.length) return undefined
  return stoodWarm(curve, first.startsAt, last.endsAt)
}
