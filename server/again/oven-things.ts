import type { Say } from "../accounts/say.ts"
import { changeIn } from "../changes/words.ts"
import { vesselWords } from "../cues/words.ts"
import { degrees } from "../table/cause-words.ts"
import type { Laid } from "./laid.ts"
import { least, type Thing, type Two } from "./thing.ts"

export function oven({ earlier, later }: Two, say: Say): Thing[] {
  const things: Thing[] = []
  const [one, other] = [earlier.bake.vessel, later.bake.vessel]
  if (one && other && one !== other)
    things.push({ key: "vessel", name: "Baked", earlier: vesselWords[one], later: vesselWords[other], by: "elsewhere" })
  const [before, after] = [ovenC(earlier), ovenC(later)]
  if (before !== undefined && after !== undefined && Math.abs(after - before) >= least.ovenC)
    things.push({
      ...{ key: "oven", name: "Oven", earlier: say.temperature(before), later: say.temperature(after) },
      by: `${degrees(Math.abs(after - before), say)} ${after > before ? "hotter" : "cooler"}`,
    })
  const [baked, bakedNow] = [bakeMin(earlier), bakeMin(later)]
  if (baked !== undefined && bakedNow !== undefined && Math.abs(bakedNow - baked) >= least.ovenMin)
    things.push({
      ...{ key: "baking", name: "In the oven", earlier: say.minutes(baked), later: say.minutes(bakedNow) },
      by: `${say.minutes(Math.abs(bakedNow - baked))} ${bakedNow > baked ? "longer" : "shorter"}`,
    })
  const [said, saidNow] = [ovenSaid(earlier, say), ovenSaid(later, say)]
  if (said !== saidNow)
    things.push({
      key: "oven said",
      name: "Another oven",
      earlier: said || "as planned",
      later: saidNow || "as planned",
      by: "said so",
    })
  return things
}

const ovenC = ({ bake }: Laid) =>
  bake.readings.findLast(({ kind, value }) => kind === "oven" && value !== null)?.value ?? undefined
const bakeMin = ({ row }: Laid) => row.times.find(({ stage }) => stage.kind === "bake")?.actualMin
const ovenSaid = ({ bake }: Laid, say: Say) =>
  bake.changes
    .filter(({ kind }) => kind === "oven")
    .map((change) => changeIn(change, say).replace(/^Oven: /, ""))
    .join("; ")
