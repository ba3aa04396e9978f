import type { Say } from "../accounts/say.ts"
import { differenceIn as changeIn } from "../changes/words.ts"
import { namedIn, type Verdict } from "../dough/verdict/verdict.ts"
import { degrees, leadIn } from "./cause-words.ts"
import type { Difference } from "./differences.ts"
import type { Row } from "./row.ts"

/** A bake's row in words, for one person: their units, and the clock of the class. */
export function wordsFor(row: Row, name: string, say: Say, zone: string) {
  const lead = leadOf(row, say)
  return {
    call: callOf(row),
    chances: chancesOf(row.verdict),
    standing: standingOf(row, say, zone),
    lead,
    differences: differencesIn(row, say, lead),
    strip: stripOf(row, name, say, zone),
    readings: row.warmth ? readingsIn(row.warmth.points) : "",
  }
}

/** How far from its plan it came to the oven, as the causes have it; "" for a lead that nobody would call one. */
function leadOf({ causes }: Row, say: Say) {
  return causes.enough && Math.abs(causes.leadMin) >= leastLeadMin ? leadIn(causes.leadMin, say) : ""
}
// Our own judgement.
const leastLeadMin = 15

const calls = { under: "underproofed", well: "well proofed", over: "overproofed" }

function callOf({ state, verdict }: Row) {
  if (state === "running") return "not at the oven yet"
  if (state === "abandoned") return "given up, so no verdict"
  if (verdict.call === "not enough to say") return verdict.call
  const fault = faultIn(verdict)
  if (fault) return fault
  if (verdict.call !== "between") return calls[verdict.call]
  const { under, well, over } = verdict
  if (under > well || over > well) return under > over ? "under or well proofed" : "well or overproofed"
  return under > over ? "well, perhaps under" : "well, perhaps over"
}

/** What explains the bread better than how far its dough had come, where something does. */
function faultIn(verdict: Verdict) {
  const named = namedIn(verdict)
  const proof = !named || ["underproofed", "overproofed", "nothing wrong"].includes(named.key)
  return proof ? undefined : `perhaps ${lower(named.name)}`
}

/** "under 5 %", "well 87 %", "over 8 %": whole percents that add up to 100, never a false 0 or 100. */
function chancesOf(verdict: Verdict) {
  if (verdict.call === "not enough to say") return []
  const [under, over] = [Math.round(verdict.under * 100), Math.round(verdict.over * 100)]
  return Object.entries({ under, well: 100 - under - over, over }).map(
    ([word, percent]) => `${word} ${chanceIn(percent)}`,
  )
}
function chanceIn(percent: number) {
  if (percent <= 0) return "<1 %"
  return percent >= 100 ? ">99 %" : `${percent} %`
}

/** Where the bake stands and what its log leaves out, in short sentences. */
function standingOf(row: Row, say: Say, zone: string) {
  const { state, spans, warmth, fermented } = row
  const open = spans.findLast(({ end }) => end === "open")
  const said: string[] = []
  if (state === "nothing") return ["Nothing logged."]
  if (state === "running")
    said.push(open ? `${open.stage.name} since ${say.time(open.startsAt, zone)}.` : "Still going.")
  if (state === "abandoned") said.push(`Given up${open ? ` during ${lower(open.stage.name)}` : ""}.`)
  if (gapIn(row)) said.push(gapIn(row)!)
  if (state === "over" && !fermented && row.lastLoggedAt)
    said.push(`Last logged ${say.dayAndTime(row.lastLoggedAt, zone)}.`)
  if (fermented && warmth?.from === "room") said.push("No dough temperature: the room's stands in for it.")
  else if (fermented && warmth && areGuesses(warmth.points))
    said.push(`The dough's temperature was ${howKnown(warmth.points)}, not measured.`)
  else if (fermented && warmth?.points.length === 1) said.push("A single dough temperature.")
  return said
}

type Point = NonNullable<Row["warmth"]>["points"][number]
const areGuesses = (points: Point[]) => points.every(({ known }) => known)
const howKnown = (points: Point[]) => [...new Set(points.map(({ known }) => known ?? "measured"))].join(" or ")

/** "one reading", "3 readings, 1 felt", "2 readings, assumed": how often, and how well, a temperature is known. */
export function readingsIn(points: Point[]) {
  const count = points.length === 1 ? "one reading" : `${points.length} readings`
  const guesses = points.filter(({ known }) => known)
  if (!guesses.length) return count
  return `${count}, ${guesses.length < points.length ? `${guesses.length} ` : ""}${howKnown(guesses)}`
}

function gapIn({ gap, stages, state }: Row) {
  const driven = stages.filter(({ drivenByTemperature }) => drivenByTemperature)
  const [first, last] = [driven[0]?.name ?? "", driven.at(-1)?.name ?? ""]
  switch (gap) {
    case "no temperature":
      return "No dough temperature."
    case "no start":
      return state === "running" ? `${first} not started.` : `The start of ${lower(first)} is not marked.`
    case "no end":
      return `The end of ${lower(last)} is not marked.`
    case "out of order":
      return "The stages are marked out of order."
    case "no stage is driven by temperature":
      return "No stage of this formula is driven by temperature."
    case "nothing logged":
      return "No stage marked."
  }
}

function differencesIn(row: Row, say: Say, lead: string) {
  const measured = row.differences.filter(({ kind }) => kind !== "change")
  // what somebody did otherwise is never too small to be told
  const told = row.differences.filter((one) => one.kind === "change" || measured.indexOf(one) < 3)
  const largest = told.map((one) => differenceIn(one, say))
  if (largest.length || lead || !row.fermented || row.fermented.soFar) return largest
  return ["close to plan"]
}

function differenceIn(difference: Difference, say: Say): string {
  switch (difference.kind) {
    case "length":
      return `${difference.stage} ${say.minutes(Math.abs(difference.min))} ${difference.min > 0 ? "longer" : "shorter"}`
    case "wait":
      return `waited ${say.minutes(difference.min)} for the oven`
    case "oven":
      return `into the oven ${say.minutes(Math.abs(difference.min))} ${difference.min > 0 ? "late" : "early"}`
    case "warmth":
      return `dough ${degrees(Math.abs(difference.c), say)} ${difference.c > 0 ? "warmer" : "colder"}`
    case "rise":
      return `rise ${say.rise(difference.share)} against ${say.rise(difference.target)}`
    case "change":
      return changeIn(difference.change, say)
  }
}

/** The strip for somebody who cannot see it. */
function stripOf(row: Row, name: string, say: Say, zone: string) {
  const { fermented, plannedHours, warmth, spans } = row
  const clock = (at: Date) => say.time(at, zone)
  const stages = spans
    .filter(({ stage }) => stage.drivenByTemperature || stage.kind === "bake")
    .map(({ stage, startsAt, endsAt, end }) =>
      end === "open" ? `${stage.name} from ${clock(startsAt)}` : `${stage.name} ${clock(startsAt)} to ${clock(endsAt)}`,
    )
  const parts = [
    ...stages,
    warmth &&
      `${warmth.from} ${warmth.points.length === 1 ? "" : `${say.temperature(warmth.lowC)} to `}${say.temperature(warmth.highC)}${areGuesses(warmth.points) ? ` ${howKnown(warmth.points)}` : ""}`,
    fermented && `${say.hours(fermented.hours)} reference hours${fermented.soFar ? " so far" : ""}`,
    plannedHours !== undefined && `planned ${say.hours(plannedHours)}`,
  ].filter((part) => typeof part === "string")
  return `${name}: ${stages.length ? "" : "no stage marked, "}${parts.join(", ")}.`
}

const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1)
