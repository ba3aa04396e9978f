/**
 * What a verdict makes of bakes told in words: `npm run told-verdicts -- file.json`, a list of bakes in either form that
 * DEVELOPERS.md describes; without a file those of tests/published/told-diagnoses.ts. Each with the verdict, what was weighed,
 * the first suspects and what would help most. With `--brief` a line each.
 */
import { readFileSync } from "node:fs"
import { verdictOf } from "../../server/dough/verdict/verdict.ts"
import { toldDiagnoses } from "../published/told-diagnoses.ts"
import type { ToldDiagnosis } from "../published/told-shape.ts"
import { account, readAccount } from "../told-accounts.ts"

const given = process.argv.slice(2).filter((one) => one !== "--brief")
const brief = process.argv.includes("--brief")
const bakes = given.length ? given.flatMap((file) => inFile(JSON.parse(readFileSync(file, "utf8")))) : toldDiagnoses
const percent = (chance: number) => `${Math.round(chance * 100)} %`

for (const { id, name, bread, agreed, facts } of bakes) {
  const verdict = verdictOf(facts)
  const suspects = verdict.suspects.slice(0, 4).map((one) => `${one.name} ${percent(one.chance)}`)
  const proof =
    verdict.call === "not enough to say"
      ? verdict.call
      : `${verdict.call} (under ${percent(verdict.under)}, well ${percent(verdict.well)}, over ${percent(verdict.over)})`
  console.log(`${id}${name ? `, ${name}` : ""}  ${bread}`)
  if (agreed) console.log(`  agreed:    ${agreed.join(" or ")}`)
  console.log(`  proof:     ${proof}`)
  console.log(`  suspects:  ${suspects.join("; ")}`)
  if (!brief)
    for (const one of verdict.evidence)
      console.log(
        `  weighed:   ${one.words} → ${one.pull} (${one.logShift >= 0 ? "+" : "−"}${Math.abs(one.logShift).toFixed(2)})`,
      )
  console.log(`  ${verdict.wouldHelp ?? "Nothing more would help much."}\n`)
}

function inFile(content: unknown): ToldDiagnosis[] {
  return [content].flat().map((one) => {
    if (typeof one === "object" && one !== null && "facts" in one) return one as ToldDiagnosis
    const told = account.parse(one)
    return { id: told.id, bread: told.bread, source: told.source_url, facts: readAccount(told).facts }
  })
}
