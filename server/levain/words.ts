import type { Say } from "../accounts/say.ts"
import { hoursAt, hoursToRipe } from "../dough/levain/ripening.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { feedingWords } from "../plans/typed.ts"
import type { Typed } from "../web/forms.ts"
import type { Answer } from "./answer.ts"
import { inStarters, massTyped } from "./begins.ts"
import type { Asked } from "./forms.ts"
import { moment } from "./times.ts"

/** Something else to do, in a sentence; `with` what the form would say then, where one tap takes it. */
export type Instead = { words: string; with?: Typed }

/** What would help, and what else would do: the smallest change first. */
export function insteadOf(answer: Answer, asked: Asked, say: Say, now: Date): Instead[] {
  if (answer.kind === "late") return helpWords(answer, asked, say, now)
  if (answer.kind === "too little")
    return answer.makesG > 1
      ? [{ words: `Make ${say.mass(answer.makesG)} for the dough`, with: { needed: massTyped(answer.makesG, say) } }]
      : []
  if (answer.kind !== "builds" || !answer.once) return []
  return [
    {
      words: `Or feed it once, from ${moment(answer.once, say)} on`,
      with: { fed: say.field(answer.once), count: "1" },
    },
  ]
}

function helpWords(
  { help, builds }: Extract<Answer, { kind: "late" }>,
  { levain }: Asked,
  say: Say,
  now: Date,
): Instead[] {
  const { atC, starterG, feedBy } = help
  const ripeAt = builds.at(-1)!.ripe.at
  return [
    ...(atC === undefined
      ? []
      : [
          {
            words: `Let it stand at ${say.temperature(atC)} instead of ${say.temperature(levain.atC)}`,
            with: { at: degrees(atC, say) },
          },
        ]),
    ...(feedBy > now ? [{ words: `Feed it ${moment(feedBy, say)}`, with: { fed: say.field(feedBy) } }] : []),
    ...(starterG && levain.starter.g !== undefined
      ? [{ words: `With ${say.mass(starterG)} of starter it would be in time` }]
      : []),
    {
      words: `Wait for it until ${moment(ripeAt, say)}`,
      with: { ripe: say.field(new Date(Math.ceil(+ripeAt / 60_000) * 60_000)) },
    },
  ]
}

/** A temperature as its field has it; half a tenth warmer is in time, colder is not. */
const degrees = (c: number, { temperatureUnit }: Say) =>
  String(Number((Math.ceil((temperatureUnit === "F" ? (c * 9) / 5 + 32 : c) * 10) / 10).toFixed(1)))

/** The feedings of a livelier and of a more tired starter, in a sentence; null where they are none that anybody feeds. */
export function otherStarters(answer: Answer): string | null {
  if (answer.kind !== "builds") return null
  const { lively, tired } = answer
  const told = [
    lively && `a lively one ${feedingWords(inStarters(lively))}`,
    tired && `a tired one ${feedingWords(inStarters(tired))}`,
  ].filter(Boolean)
  return told.length ? `That is for a usual starter; for the same time ${told.join(" and ")}.` : null
}

/** The places of a kitchen at which the levain could stand as well; `at` is where it stands, as typed. */
export function placesIn({ roomC, prooferC, coolC, coolPlace }: Kitchen, at: string | undefined, say: Say): Instead[] {
  const places = [
    roomC && { name: "your room", c: roomC.value },
    prooferC && { name: "your warm box", c: prooferC.value },
    coolC && { name: `your ${coolPlace || "cold place"}`, c: coolC.value },
  ]
  return places.flatMap((place) =>
    place && degrees(place.c, say) !== at
      ? [{ words: `${place.name}, ${say.temperature(place.c)}`, with: { at: degrees(place.c, say) } }]
      : [],
  )
}

/** What our model says of what is commonly told, so that anybody can judge it. */
export function checksOf(say: Say): string[] {
  const hours = (share: number, atC: number) => say.hours(hoursAt(atC, hoursToRipe(share, 1))!.hours)
  const [equal, oneToFive] = [1 / 3, 1 / 11]
  return [
    `A levain fed 1 : 1 : 1 doubles in ${hours(equal, 21)} h at ${say.temperature(21)} and ${hours(equal, 24)} h at ${say.temperature(24)} by it; 5–7 h at room temperature is common practice.`,
    `One fed 1 : 5 : 5 doubles in ${hours(oneToFive, 22)}–${hours(oneToFive, 21)} h at ${say.temperature(21)}–${say.temperature(22)}.`,
  ]
}
