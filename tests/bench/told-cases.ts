/**
 * Bakes told in public, entered through the app as told: what the page asked for, and what its estimate said against what
 * happened. A plain list; `npx tsx tests/bench/told-cases.ts`.
 */
import { buildApp } from "../../server/app.ts"
import { openEmbedded } from "../../server/db.ts"
import { gatherCast } from "../cast.ts"
import { temporaryFolder } from "../data-dir.ts"
import { toldCases } from "../published/told-cases.ts"
import { compare, enterTold, ourTarget, type Said } from "../told.ts"

const { db, close } = await openEmbedded("memory://")
const dataDir = await temporaryFolder()
const app = buildApp({ db, settings: { PUBLIC_URL: "", LOG_LEVEL: "silent", TRUST_PROXY: [], DATA_DIR: dataDir } })
await app.ready()
const cast = await gatherCast(app)

const percent = (share: number) => `${Math.round(share * 100)} %`
const riseIn = ({ rise }: Said) =>
  rise ? `+${percent(rise.value)} (${percent(rise.low)} to ${percent(rise.high)})` : "none"
const readyWords = { since: "past the target", about: "not there yet", "no time": "no time" }

console.log(`Rises to stop at are the book's where one was told, else ours, +${percent(ourTarget)}.\n`)
const outcomes: ReturnType<typeof compare>[] = []
const estimable = new Set<string>()
for (const told of toldCases)
  for (const bake of told.bakes) {
    const { doubts, unpublished, before, after } = await enterTold(db, cast, told, bake)
    const outcome = compare(bake, before)
    outcomes.push(outcome)
    if (before.rise) estimable.add(told.id)
    console.log(`${told.id}  ${told.bread}${bake.name ? `, ${bake.name}` : ""}  <${told.source}>`)
    console.log(`  told:      ${bake.happened}${bake.rise ? `; risen ${bake.rise.words}` : ""}`)
    for (const asked of [...doubts, unpublished, before.asked].filter(Boolean)) console.log(`  asked for: ${asked}`)
    if (before.rise)
      console.log(
        `  said:      rise ${riseIn(before)}, ${readyWords[before.ready]} of +${percent(bake.target ?? ourTarget)}`,
      )
    if (after?.rise) console.log(`  with the told rise: ${riseIn(after)}, ${readyWords[after.ready]}`)
    if (outcome.direction !== undefined)
      console.log(`  its direction ${outcome.direction ? "agrees" : "does not agree"}`)
    if (outcome.rise !== undefined) console.log(`  the told rise lies ${outcome.rise ? "in" : "outside"} its range`)
    if (!before.rise && !before.asked) console.log(`  said:      ${before.words || "nothing"}`)
    console.log("")
  }
const tally = (what: "direction" | "rise") => {
  const compared = outcomes.map((outcome) => outcome[what]).filter((one) => one !== undefined)
  return `${compared.filter(Boolean).length} of ${compared.length}`
}
console.log(
  `${toldCases.length} cases, ${outcomes.length} bakes; something to estimate from in ${estimable.size} cases.`,
)
console.log(`The direction agrees in ${tally("direction")} bakes; the told rise lies in the range in ${tally("rise")}.`)

await app.close()
await close()
